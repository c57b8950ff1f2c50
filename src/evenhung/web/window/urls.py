"""Addresses of one window."""

from __future__ import annotations

from django.urls import path

from evenhung.web.window import views

urlpatterns = [
    path("new/", views.new, name="new-window"),
    path("<str:window>/", views.window, name="window"),
    path("<str:window>/edit/<slug:section>/", views.edit, name="edit-window"),
    path("<str:window>/remove/", views.remove, name="remove-window"),
]
