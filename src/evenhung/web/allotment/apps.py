"""The allotments as an app of Django's: its model needs one."""

from __future__ import annotations

from django.apps import AppConfig


class AllotmentConfig(AppConfig):
    """Names the table ``allotment_run``."""

    name = "evenhung.web.allotment"
    label = "allotment"
