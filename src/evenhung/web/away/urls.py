"""Addresses for when there is no connection."""

from __future__ import annotations

from django.urls import path

from evenhung.web.away import views

urlpatterns = [
    path("away.js", views.worker, name="away-worker"),
    path("away/not-seen/", views.away, {"what": "not-seen"}, name="away-not-seen"),
    path("away/not-saved/", views.away, {"what": "not-saved"}, name="away-not-saved"),
    path("house/<str:house>/along/", views.along, name="take-along"),
]
