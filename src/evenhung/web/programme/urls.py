"""Addresses of the programme of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.programme import views

urlpatterns = [
    path("", views.programme, name="programme"),
    path("standing/", views.programme_standing, name="programme-standing"),
    path("settings/", views.settings, name="programme-settings"),
    path("begin/", views.begin, name="make-programme"),
    path("stop/", views.stop, name="stop-programme"),
    path("lost/", views.lose_a_day, name="lose-a-day"),
    path("programme.ics", views.calendar, name="programme-calendar"),
]
