"""Addresses of one house."""

from __future__ import annotations

from django.urls import path

from evenhung.web.house import views

urlpatterns = [
    path("", views.house, name="house"),
    path("about/", views.about, name="about-house"),
    path("history/", views.changes, name="history"),
    path("undo/<int:number>/", views.take_back, name="undo"),
    path("take-out/", views.take_out, name="take-out"),
    path("survey.toml", views.survey_file, name="survey-file"),
    path("survey.xlsx", views.survey_workbook, name="survey-workbook"),
    path("put-away/", views.put_away, name="put-away"),
]
