"""The address that says how a quantity is understood."""

from __future__ import annotations

from django.urls import path

from evenhung.web.page.views import understood_as

urlpatterns = [path("", understood_as, name="understood")]
