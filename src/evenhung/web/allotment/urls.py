"""Addresses of the allotment of a house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.allotment import views

urlpatterns = [
    path("", views.allotment, name="allotment"),
    path("standing/", views.standing, name="standing"),
    path("begin/", views.begin, name="allot"),
    path("stop/", views.stop, name="stop-allot"),
    path("accept/", views.accept, name="accept"),
    path("decide/", views.decide, name="decide"),
    path("withdraw/", views.withdraw_held, name="withdraw-held"),
    path("withdraw/<str:decision>/", views.withdraw, name="withdraw"),
    path("hung/<int:run>/<int:number>/", views.hung, name="hung"),
    path("done/<str:decision>/", views.done, name="done"),
]
