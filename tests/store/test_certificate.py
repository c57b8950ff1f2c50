"""The certificate: good for the names of this machine, made anew before it ends."""

from __future__ import annotations

import ssl
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509

from evenhung.store.certificate import certificate_for
from evenhung.store.folder import DataFolder

HOSTS = ("192.0.2.7", "bench.local")


@pytest.fixture
def folder(tmp_path):
    folder = DataFolder(tmp_path)
    folder.prepare()
    return folder


def test_it_names_the_machine_and_its_key_is_for_its_owner_alone(folder):
    fingerprint = certificate_for(folder, HOSTS)
    made = x509.load_pem_x509_certificate(folder.certificate.read_bytes())
    names = made.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert {str(name.value) for name in names} == {"localhost", "127.0.0.1", *HOSTS}
    assert len(fingerprint.split(":")) == 32
    assert folder.certificate_key.stat().st_mode & 0o777 == 0o600
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(folder.certificate, folder.certificate_key)  # they go together


def test_it_is_kept_while_it_serves(folder):
    first = certificate_for(folder, HOSTS)
    assert certificate_for(folder, HOSTS[:1]) == first
    assert certificate_for(folder, (*HOSTS, "192.0.2.8")) != first


def test_it_is_made_anew_before_it_ends(folder):
    first = certificate_for(folder, HOSTS)
    assert certificate_for(folder, HOSTS, now=datetime.now(UTC) + timedelta(days=380)) != first


def test_a_broken_one_is_replaced(folder):
    first = certificate_for(folder, HOSTS)
    folder.certificate.write_bytes(b"not a certificate")
    assert certificate_for(folder, HOSTS) != first
