"""Every address, by feature."""

from __future__ import annotations

from django.urls import include, path

urlpatterns = [
    path("", include("evenhung.web.houses.urls")),
    path("", include("evenhung.web.access.urls")),
    path("", include("evenhung.web.away.urls")),
    path("understood/", include("evenhung.web.page.urls")),
    path("house/<str:house>/", include("evenhung.web.house.urls")),
    path("house/<str:house>/", include("evenhung.web.photos.urls")),
    path("house/<str:house>/", include("evenhung.web.weighin.urls")),
    path("house/<str:house>/weights/", include("evenhung.web.weights.urls")),
    path("house/<str:house>/stock/", include("evenhung.web.stock.urls")),
    path("house/<str:house>/allotment/", include("evenhung.web.allotment.urls")),
    path(
        "house/<str:house>/window/<str:window>/found/<slug:shelf>/",
        include("evenhung.web.condition.urls"),
    ),
    path("house/<str:house>/price/", include("evenhung.web.price.urls")),
    path("house/<str:house>/programme/", include("evenhung.web.programme.urls")),
    path("house/<str:house>/pack/", include("evenhung.web.pack.urls")),
    path("house/<str:house>/window/", include("evenhung.web.window.urls")),
]

handler400 = "evenhung.web.page.trouble.bad_request"
handler403 = "evenhung.web.page.trouble.forbidden"
handler404 = "evenhung.web.page.trouble.not_found"
handler500 = "evenhung.web.page.trouble.our_fault"
