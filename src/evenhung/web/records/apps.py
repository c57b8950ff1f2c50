"""The records as an app of Django's: its models need one."""

from __future__ import annotations

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """Names the tables ``records_...``."""

    name = "evenhung.web.records"
    label = "records"
