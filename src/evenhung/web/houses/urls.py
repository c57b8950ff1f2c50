"""Addresses of all the houses."""

from __future__ import annotations

from django.urls import path

from evenhung.web.houses import views

urlpatterns = [
    path("", views.houses, name="houses"),
    path("new/", views.new, name="new-house"),
    path("demo/", views.demo, name="demo-house"),
    path("bring/", views.bring, name="bring-house"),
    path("survey.xlsx", views.workbook, name="blank-workbook"),
]
