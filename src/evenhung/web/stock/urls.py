"""Addresses of the stock of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.stock import views

urlpatterns = [
    path("", views.stock, name="stock"),
    path("worths/", views.worths, name="worths"),
    path("empty/", views.empty, name="empty-stock"),
    path("<slug:shelf>/", views.new_item, name="new-item"),
    path("<slug:shelf>/<int:number>/", views.item, name="item"),
    path("<slug:shelf>/<int:number>/remove/", views.remove_item, name="remove-item"),
]
