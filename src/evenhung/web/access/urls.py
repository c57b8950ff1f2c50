"""Addresses of log-in, of people, and of visitors' links."""

from __future__ import annotations

from django.urls import path

from evenhung.web.access import views

urlpatterns = [
    path("log-in/", views.log_in, name="log-in"),
    path("log-out/", views.log_out, name="log-out"),
    path("visit/", views.visit, name="visit"),
    path("people/", views.people, name="people"),
    path("people/<int:number>/", views.person, name="person"),
    path("house/<str:house>/visitors/", views.visitors, name="visitors"),
    path("house/<str:house>/visitors/<int:number>/revoke/", views.revoke, name="revoke"),
]
