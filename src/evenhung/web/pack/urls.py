"""Addresses of the pack of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.pack import views

urlpatterns = [
    path("", views.pack, name="pack"),
    path("standing/", views.pack_standing, name="pack-standing"),
    path("begin/", views.begin, name="make-pack"),
    path("stop/", views.stop, name="stop-pack"),
    path("download/", views.download, name="download-pack"),
]
