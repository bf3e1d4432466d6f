"""The certificate that the page is served under where a phone is to keep it: made here, for one
address alone.

A root and, signed by it, what the program shows for the address. The phone is told to trust the
root. Its key is thrown away as soon as it has signed: nothing can be signed with it again, so that
whoever trusts it trusts this one address and nothing else; the root's own name constraints say so
too (RFC 5280, 4.2.1.10).
"""

from __future__ import annotations

import os
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from sequencer.errors import SurroundingsError
from sequencer.facts import follows

if TYPE_CHECKING:
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec

VALID = timedelta(days=820)
"""Phones take no server's certificate that lasts longer than 825 days, even under a root that they
were told to trust; from memory."""

LEAST_LEFT = timedelta(days=30)
"""With less than that to go a new one is made, lest it end in the middle of a job; ours."""

NOBODY = "invalid"
"""The only name that is allowed where none is wanted: no host has it (RFC 2606)."""


class Certificate(Struct, frozen=True):
    """`path` holds key and chain, for its owner alone; `root` is what the phone installs (DER)."""

    path: Path
    root: bytes
    fingerprint: str
    """SHA-256 of the root, in pairs of digits, as phones show it."""


def certificate_for(names: list[str], folder: Path) -> Certificate:
    """That of earlier times, while it lasts, else a new one. `names` are addresses or host names.
    Raises `SurroundingsError` where the library is missing or the folder takes nothing."""
    try:
        import cryptography  # noqa: F401
    except ImportError:
        raise SurroundingsError(follows.NO_TLS_LIBRARY()) from None
    path = folder / f"{names[0].replace(':', '.')}.pem"
    try:
        kept = _kept(path, names)
        if kept is None:
            _write(path, _made(names))
            kept = _kept(path, names)
    except OSError as error:
        reason = error.strerror or str(error)
        raise SurroundingsError(follows.NOT_WRITTEN(file=str(path), reason=reason)) from None
    assert kept is not None
    return kept


def _kept(path: Path, names: list[str]) -> Certificate | None:
    """What lies there, where it is for the same names and lasts; `None` for anything else."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization

    if not path.exists():
        return None
    body = path.read_bytes()
    try:
        serialization.load_pem_private_key(body, None)
        own, root = x509.load_pem_x509_certificates(body)
        found = own.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (ValueError, TypeError, x509.ExtensionNotFound):
        return None
    ends = datetime.now(UTC) + LEAST_LEFT
    if list(found) != _named(names) or own.not_valid_after_utc < ends:
        return None
    print_of = root.fingerprint(hashes.SHA256()).hex(":").upper()
    return Certificate(path, root.public_bytes(serialization.Encoding.DER), print_of)


def _write(path: Path, body: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(body)
    part.replace(path)


def _named(names: list[str]) -> list[x509.GeneralName]:
    from cryptography import x509

    found: list[x509.GeneralName] = []
    for name in names:
        try:
            found.append(x509.IPAddress(ip_address(name)))
        except ValueError:
            found.append(x509.DNSName(name))
    return found


def _made(names: list[str]) -> bytes:
    """Key, own certificate and root, as PEM."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.x509.oid import ExtendedKeyUsageOID

    root_key, key = ec.generate_private_key(ec.SECP256R1()), ec.generate_private_key(ec.SECP256R1())
    title = f"sequencer {names[0]}"[:64]
    root = (
        _begun(title, title, root_key)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(_alone(names), critical=True)
        .sign(root_key, hashes.SHA256())
    )
    own = (
        _begun(names[0][:64], title, key)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(_named(names)), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(root_key.public_key()),
            critical=False,
        )
        .sign(root_key, hashes.SHA256())
    )
    pem = serialization.Encoding.PEM
    secret = key.private_bytes(pem, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    return secret + own.public_bytes(pem) + root.public_bytes(pem)


def _begun(subject: str, issuer: str, key: ec.EllipticCurvePrivateKey) -> x509.CertificateBuilder:
    """What both have; from a day ago, for phones whose clock is behind."""
    from cryptography import x509
    from cryptography.x509.oid import NameOID

    now = datetime.now(UTC)
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, subject)]))
        .issuer_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, issuer)]))
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + VALID)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _usage(*, signs: bool) -> x509.KeyUsage:
    from cryptography import x509

    return x509.KeyUsage(
        digital_signature=not signs, key_cert_sign=signs, crl_sign=signs, content_commitment=False,
        key_encipherment=False, data_encipherment=False, key_agreement=False, encipher_only=False,
        decipher_only=False,
    )  # fmt: skip


def _alone(names: list[str]) -> x509.NameConstraints:
    """Those names and no others; of a kind of name that is not wanted, one that nobody has."""
    from cryptography import x509

    wanted = _named(names)
    addresses = [str(each.value) for each in wanted if isinstance(each, x509.IPAddress)]
    hosts = [each.value for each in wanted if isinstance(each, x509.DNSName)]
    permitted: list[x509.GeneralName] = [
        *(x509.IPAddress(ip_network(each)) for each in addresses or ["0.0.0.0"]),
        *(x509.DNSName(each) for each in hosts or [NOBODY]),
    ]
    return x509.NameConstraints(permitted, None)
