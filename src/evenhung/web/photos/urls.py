"""Addresses of photos."""

from __future__ import annotations

from django.urls import path

from evenhung.web.photos import views

urlpatterns = [
    path("window/<str:window>/photos/", views.photos, name="photos"),
    path("photo/<str:photo>/", views.photo, name="photo"),
    path("photo/<str:photo>/said/", views.said, name="photo-said"),
    path("photo/<str:photo>/whole.jpg", views.whole, name="photo-whole"),
    path("photo/<str:photo>/small.jpg", views.small_one, name="photo-small"),
]
