"""The page's certificate: for one address, its key for its owner alone, nothing to sign with."""

from __future__ import annotations

import sys
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from sequencer.errors import SurroundingsError
from sequencer.facts import follows
from sequencer.sawside import certificate
from sequencer.sawside.certificate import certificate_for

ADDRESS = "192.0.2.7"  # RFC 5737: belongs to nobody


def chain(path: Path) -> tuple[x509.Certificate, x509.Certificate]:
    own, root = x509.load_pem_x509_certificates(path.read_bytes())
    return own, root


def test_a_verifier_takes_it_for_its_address_and_no_other(tmp_path: Path) -> None:
    """By the path validation of RFC 5280, as the library does it."""
    made = certificate_for([ADDRESS], tmp_path)
    own, root = chain(made.path)
    trusts = PolicyBuilder().store(Store([root]))
    name = x509.IPAddress(ip_address(ADDRESS))
    assert trusts.build_server_verifier(name).verify(own, [])[-1] == root
    with pytest.raises(VerificationError):
        trusts.build_server_verifier(x509.IPAddress(ip_address("192.0.2.8"))).verify(own, [])
    with pytest.raises(VerificationError):
        trusts.build_server_verifier(x509.DNSName("example.org")).verify(own, [])
    usage = own.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert own.not_valid_after_utc - own.not_valid_before_utc <= timedelta(days=825)


def test_nothing_else_can_be_signed_with_its_root(tmp_path: Path) -> None:
    """The key that lies there is that of the address; and what the root allows is the address."""
    made = certificate_for([ADDRESS], tmp_path)
    body = made.path.read_bytes()
    assert body.count(b"PRIVATE KEY") == 2  # one, between its two lines
    assert made.path.stat().st_mode & 0o077 == 0
    own, root = chain(made.path)
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    key = load_pem_private_key(body, None)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    assert key.public_key() == own.public_key() != root.public_key()
    allowed = root.extensions.get_extension_for_class(x509.NameConstraints)
    assert allowed.critical
    assert [str(each.value) for each in allowed.value.permitted_subtrees or ()] == [
        f"{ADDRESS}/32", "invalid",
    ]  # fmt: skip


def test_it_stays_while_it_lasts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = certificate_for([ADDRESS], tmp_path)
    assert certificate_for([ADDRESS], tmp_path) == first
    assert certificate_for(["192.0.2.8"], tmp_path).root != first.root
    # Torn, for other names, or about to end: made anew.
    assert certificate_for([ADDRESS, "localhost"], tmp_path).root != first.root
    first.path.write_bytes(first.path.read_bytes()[:300])
    again = certificate_for([ADDRESS], tmp_path)
    assert again.root != first.root

    class Later(datetime):
        @classmethod
        def now(cls, _: object = None) -> datetime:  # type: ignore[override]
            return datetime.now(UTC) + timedelta(days=800)

    monkeypatch.setattr(certificate, "datetime", Later)
    assert certificate._kept(again.path, [ADDRESS]) is None


def test_the_fingerprint_is_that_of_what_the_phone_loads(tmp_path: Path) -> None:
    from hashlib import sha256

    made = certificate_for([ADDRESS], tmp_path)
    assert made.fingerprint.replace(":", "").lower() == sha256(made.root).hexdigest()


def test_without_the_library_it_is_said_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "cryptography", None)
    with pytest.raises(SurroundingsError) as told:
        certificate_for([ADDRESS], tmp_path)
    assert [each.kind for each in told.value.says] == [follows.NO_TLS_LIBRARY]


def test_a_folder_that_takes_nothing_is_named(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("in the way")
    with pytest.raises(SurroundingsError) as told:
        certificate_for([ADDRESS], tmp_path / "a" / "b")
    assert [each.kind for each in told.value.says] == [follows.NOT_WRITTEN]
