"""Addresses of the weights of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.weights import views

urlpatterns = [
    path("", views.weights, name="weights"),
    path("loose/", views.new_loose, name="new-loose"),
    path("loose/<str:weight>/", views.loose, name="loose"),
    path("loose/<str:weight>/remove/", views.remove_loose, name="remove-loose"),
]
