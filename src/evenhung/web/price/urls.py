"""Addresses of the price of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.price import views

urlpatterns = [
    path("", views.price, name="price"),
    path("terms/", views.terms, name="price-terms"),
    path("booked/new/", views.book, name="book-hours"),
    path("booked/<str:booked>/", views.booked, name="booked"),
    path("booked/<str:booked>/remove/", views.remove_booked, name="remove-booked"),
    path("<slug:shelf>/new/", views.new_item, name="new-price-item"),
    path("<slug:shelf>/<int:number>/", views.item, name="price-item"),
    path("<slug:shelf>/<int:number>/remove/", views.remove_item, name="remove-price-item"),
]
