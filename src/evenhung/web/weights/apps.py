"""The allotments as an app of Django's: its model needs one."""

from __future__ import annotations

from django.apps import AppConfig


class WeightsConfig(AppConfig):
    """Names the table ``weights_solve``."""

    name = "evenhung.web.weights"
    label = "weights"
