"""Django's settings, all of them spelled from one `Config`.

Django reads this module by its name; the configuration comes to it in variables (see `config`).
"""

from __future__ import annotations

import hashlib
from pathlib import Path

import dj_database_url

from evenhung.web.config import LOOPBACK, Config

CONFIG = Config.from_variables()
CONFIG.folder.prepare()
WEB = Path(__file__).parent
STATIC = WEB / "static"

DEBUG = False
SECRET_KEY = CONFIG.folder.secret()
ALLOWED_HOSTS = [*LOOPBACK, *CONFIG.hosts]

# -- what there is

INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "evenhung.web.records",
    "evenhung.web.access",
    "evenhung.web.allotment",
]
MIDDLEWARE = [
    "evenhung.web.page.headers.security_headers",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "evenhung.web.page.limits.refuse_what_is_too_large",
    "django.middleware.gzip.GZipMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "evenhung.web.access.door.let_in",
    "evenhung.web.page.once.done_once",
]
ROOT_URLCONF = "evenhung.web.urls"
WSGI_APPLICATION = "evenhung.web.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [WEB],  # a page is named by its folder: "houses/list.html" lies beside its view
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "evenhung.web.page.context.on_every_page",
            ],
            "builtins": ["django.templatetags.i18n", "django.templatetags.static"],
            "libraries": {"figures": "evenhung.web.page.figures"},
        },
    },
]

# -- where it is kept

if CONFIG.database:
    DATABASES = {
        "default": dj_database_url.parse(CONFIG.database, conn_max_age=60, conn_health_checks=True)
    }
else:
    DATABASES = {
        "default": {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": str(CONFIG.folder.database),
            "CONN_MAX_AGE": None,
            "OPTIONS": {
                # FULL: what has been acknowledged is on the disk, whatever happens next
                "init_command": "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL",
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
            },
        }
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
FILE_UPLOAD_PERMISSIONS = 0o600

# -- who may come

AUTH_USER_MODEL = "access.Person"
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
LOGIN_URL = "log-in"
LOGIN_REDIRECT_URL = "houses"
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
SESSION_COOKIE_NAME = "evenhung-session"
SESSION_COOKIE_AGE = 14 * 24 * 3600
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SECURE_SSL_REDIRECT = CONFIG.is_shared
SESSION_COOKIE_HTTPONLY = CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_NAME = "evenhung-form"
CSRF_FAILURE_VIEW = "evenhung.web.page.trouble.stale_form"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SILENCED_SYSTEM_CHECKS = [
    # A browser that was told to insist on a known certificate would no longer let anyone accept
    # the one made on this machine.
    "security.W004",
    "security.W002",  # page.headers forbids framing by the content security policy and for old ones
]

# -- how much may come at once

DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2_000
DATA_UPLOAD_MAX_NUMBER_FILES = 20
FILE_UPLOAD_MAX_MEMORY_SIZE = 2_500_000

# -- how it is shown


def _version_of(folder: Path) -> str:
    """Give a name for all the assets as they stand, so that browsers may keep them for good."""
    digest = hashlib.sha256()
    for file in sorted(path for path in folder.rglob("*") if path.is_file()):
        digest.update(f"{file.relative_to(folder)}\0{file.stat().st_size}\0".encode())
        digest.update(file.read_bytes())
    return digest.hexdigest()[:12]


STATIC_URL = f"/static/{_version_of(STATIC)}/"
STATICFILES_DIRS = [STATIC]
STATICFILES_FINDERS = ["django.contrib.staticfiles.finders.FileSystemFinder"]
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
WHITENOISE_MAX_AGE = 365 * 24 * 3600
USE_I18N = True
LANGUAGE_CODE = "en-gb"
USE_TZ = True
TIME_ZONE = "UTC"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "evenhung: {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["stderr"], "level": "WARNING"},
    # what was refused has been answered; only faults of ours are logged
    "loggers": {"django.request": {"level": "ERROR"}, "django.security": {"level": "CRITICAL"}},
}
