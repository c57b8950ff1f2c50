"""Access as an app of Django's: its models need one."""

from __future__ import annotations

from django.apps import AppConfig


class AccessConfig(AppConfig):
    """Names the tables ``access_...``."""

    name = "evenhung.web.access"
    label = "access"
