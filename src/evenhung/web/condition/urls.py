"""Addresses of what was found of a window."""

from __future__ import annotations

from django.urls import path

from evenhung.web.condition import views

urlpatterns = [
    path("new/", views.new, name="new-found"),
    path("<int:number>/", views.one, name="found"),
    path("<int:number>/remove/", views.remove, name="remove-found"),
]
