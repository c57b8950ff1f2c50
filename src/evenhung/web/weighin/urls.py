"""The addresses of the weigh-in."""

from __future__ import annotations

from django.urls import path

from evenhung.web.weighin import views

urlpatterns = [
    path("weigh-in/", views.weigh_in, name="weigh-in"),
    path("weigh-in/read-off/", views.read_off, name="read-off"),
]
