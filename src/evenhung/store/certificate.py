"""A certificate made on this machine, so that a phone on the same network talks to it unheard."""

from __future__ import annotations

import ipaddress
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from evenhung.store.files import write_whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.store.folder import DataFolder

LASTS = timedelta(days=397)
"""As long as browsers take a certificate to be good (common practice, no source)."""
RENEWED_BEFORE = timedelta(days=30)


def certificate_for(
    folder: DataFolder, hosts: Sequence[str], *, now: datetime | None = None
) -> str:
    """Make the certificate, or keep the one that is there and still serves.

    Parameters
    ----------
    folder
        Where it and its key lie.
    hosts
        The names and addresses the machine is reached by.
    now
        The time; None takes the clock's.

    Returns
    -------
    str
        Its fingerprint (SHA-256), in pairs of figures: what a phone shows before it is trusted.
    """
    now = now or datetime.now(UTC)
    kept = _kept(folder)
    if kept is None or not _serves(kept, hosts, now):
        kept = _made(folder, hosts, now)
    return fingerprint(kept)


def fingerprint(certificate: x509.Certificate) -> str:
    """Give the fingerprint of a certificate as browsers show it."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def _kept(folder: DataFolder) -> x509.Certificate | None:
    if not (folder.certificate.exists() and folder.certificate_key.exists()):
        return None
    try:
        return x509.load_pem_x509_certificate(folder.certificate.read_bytes())
    except ValueError:  # not a certificate any more: make another
        return None


def _serves(certificate: x509.Certificate, hosts: Sequence[str], now: datetime) -> bool:
    named = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    good = (
        certificate.not_valid_before_utc <= now < certificate.not_valid_after_utc - RENEWED_BEFORE
    )
    return good and set(_names(hosts)) <= set(named)


def _names(hosts: Sequence[str]) -> list[x509.GeneralName]:
    return [_name(host.strip("[]")) for host in dict.fromkeys(("localhost", "127.0.0.1", *hosts))]


def _name(host: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(host))
    except ValueError:
        return x509.DNSName(host)


def _made(folder: DataFolder, hosts: Sequence[str], now: datetime) -> x509.Certificate:
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Evenhung on this machine")])
    usage = x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH])
    certificate = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))  # a phone's clock may be behind ours
        .not_valid_after(now + LASTS)
        .add_extension(x509.SubjectAlternativeName(_names(hosts)), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(usage, critical=False)
        .sign(key, hashes.SHA256())
    )
    secret = key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    write_whole(folder.certificate_key, secret)
    write_whole(folder.certificate, certificate.public_bytes(serialization.Encoding.PEM))
    return certificate
