"""Signatures with SSH keys: made at the end of a record, proved from outside, and never in the way of work.

The keys are made here, without a passphrase, by the tool itself.
"""

from __future__ import annotations

import shutil
import subprocess
from datetime import timedelta
from pathlib import Path

import pytest

from benchcheck.session import commands
from benchcheck.session.record import read
from benchcheck.session.verification import Verdict
from benchcheck.store import judging
from benchcheck.store.library import load_people, load_registers
from benchcheck.store.sitting import Sitting
from benchcheck.store.weighed import weigh
from tests.pumps import NOW
from tests.small_shop import SmallShop, go_on

pytestmark = pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="ssh-keygen is not installed")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of its own, with no keys and no agent."""
    folder = tmp_path / "home"
    (folder / ".ssh").mkdir(parents=True)
    monkeypatch.setenv("HOME", str(folder))
    monkeypatch.delenv("SSH_AUTH_SOCK", raising=False)
    return folder


def new_key(home: Path, name: str, passphrase: str = "") -> str:
    """The public half of a new key in a home."""
    path = home / ".ssh" / name
    words = ["ssh-keygen", "-q", "-t", "ed25519", "-N", passphrase, "-C", "sample", "-f", str(path)]
    subprocess.run(words, check=True, stdin=subprocess.DEVNULL)
    return path.with_suffix(".pub").read_text("utf-8").strip()


def shop_with(folder: Path, **keys: str) -> SmallShop:
    """A shop in which people have keys, by the last word of their name."""
    shop = SmallShop(folder / "shop")
    register = shop.workspace.people
    text = register.read_text("utf-8")
    for name, key in keys.items():
        (line,) = (each for each in text.splitlines() if each.startswith("name") and name in each)
        text = text.replace(line, f'{line}\npublic_key = "{key}"')
    register.write_text(text, "utf-8")
    return shop


def released(shop: SmallShop, remark: str = "a pump") -> Sitting:
    sitting = shop.begun()
    sitting.command(commands.remark, remark, now=NOW)
    go_on(sitting, lambda sitting: sitting.state.closed is not None)
    sitting.record.close()
    return sitting


def said(verdict: Verdict) -> str:
    return " ".join((*verdict.proved_by, *verdict.not_proved))


def test_who_closes_a_record_signs_it_and_anyone_can_prove_it(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Sample=new_key(home, "sample"), Example=new_key(home, "example"))
    sitting = released(shop)
    number, name = sitting.record.event_count, sitting.path.name
    assert sitting.signed == (
        f"Signed with the key of T. Sample: {name}.{number}.sig.",
        f"Signed with the key of Q. Example: {name}.{number}-2.sig.",
    )
    verdict = weigh(sitting.path).verdict
    assert verdict.intact
    assert (
        f"The seal signed with the key of T. Sample is that of event {number}: "
        "nothing up to it was changed or taken out." in verdict.proved_by
    )
    assert "The seal signed with the key of Q. Example is that of event" in said(verdict)
    # The same by hand, with nothing of ours.
    signers = tmp_path / "signers"
    signers.write_text(f"anyone {load_people(shop.workspace.procedures).person[0].public_key}\n", "utf-8")
    of = ("-s", f"{sitting.path}.{number}.sig")
    proved = subprocess.run(
        ["ssh-keygen", "-Y", "verify", "-f", str(signers), "-I", "anyone", "-n", "benchcheck-record", *of],
        input=sitting.path.read_bytes().splitlines(keepends=True)[-1],
        capture_output=True,
        check=False,
    )
    assert proved.returncode == 0, proved.stderr


def test_a_record_that_was_written_anew_contradicts_its_signature(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Sample=new_key(home, "sample"))
    sitting = released(shop)
    number = sitting.record.event_count
    shop.workspace.seen_seals.path.unlink()
    other = released(shop, "another pump")
    shop.workspace.seen_seals.path.unlink()
    shutil.copy(f"{sitting.path}.{number}.sig", f"{other.path}.{number}.sig")
    verdict = weigh(other.path).verdict
    assert not verdict.intact and verdict.first_bad_event == 1
    assert f"The signature {other.path.name}.{number}.sig knows another seal of event {number}" in said(
        verdict
    )


def test_a_record_that_was_cut_back_contradicts_its_signature(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Sample=new_key(home, "sample"))
    sitting = released(shop)
    shop.workspace.seen_seals.path.unlink()
    content = sitting.path.read_bytes()
    sitting.path.write_bytes(content[: read(content).seals[-2].end])
    verdict = weigh(sitting.path).verdict
    assert verdict.first_bad_event == sitting.record.event_count


def test_a_key_that_nobody_has_in_the_register_proves_nobody(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Sample=new_key(home, "sample"))
    sitting = released(shop)
    register = shop.workspace.people
    register.write_text(register.read_text("utf-8").replace("AAAAC3", "AAAAC4"), "utf-8")
    verdict = weigh(sitting.path).verdict
    assert verdict.intact
    assert "a key that no one in the register of people has" in said(verdict)
    assert f"That T. Sample signed event {verdict.events}: no signature proves it." in said(verdict)


def test_where_nobody_has_a_key_the_record_says_so(tmp_path: Path, home: Path) -> None:
    sitting = released(SmallShop(tmp_path / "shop"))
    assert sitting.signed == ()
    assert read(sitting.path.read_bytes()).events[-1]["keys"] == []
    assert "nobody in it had a registered key" in said(weigh(sitting.path).verdict)


@pytest.mark.parametrize("passphrase", ["", "secret words"])
def test_a_key_that_is_not_here_or_wants_a_passphrase_is_not_in_the_way(
    tmp_path: Path, home: Path, passphrase: str
) -> None:
    key = new_key(home, "sample", passphrase)
    if not passphrase:
        (home / ".ssh" / "sample").unlink()
    sitting = released(shop_with(tmp_path, Sample=key))
    assert sitting.state.outcome == "released"
    (told,) = sitting.signed
    assert told.startswith("Not signed with the key of T. Sample: ")
    verdict = weigh(sitting.path).verdict
    assert verdict.intact
    assert f"That T. Sample signed event {verdict.events}" in said(verdict)


def test_without_the_tool_nothing_is_signed_and_signatures_are_not_checked(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = shop_with(tmp_path, Sample=new_key(home, "sample"))
    signed = released(shop)
    monkeypatch.setattr(shutil, "which", lambda tool: None)
    sitting = released(shop)
    assert sitting.signed == ("Not signed with the key of T. Sample: ssh-keygen is not installed.",)
    verdict = weigh(signed.path).verdict
    assert verdict.intact
    assert "it could not be checked: ssh-keygen is not installed" in said(verdict)


def test_a_reviewer_signs_the_judgement(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Outline=new_key(home, "outline"))
    sitting = released(shop)
    told: list[str] = []
    refused = judging.judge(
        shop.workspace,
        load_registers(shop.workspace),
        sitting.path,
        "accepted",
        "r outline",
        "as it should be",
        NOW + timedelta(days=1),
        tell=told.append,
    )
    assert refused is None
    number = sitting.record.event_count + 1
    assert told == [f"Signed with the key of R. Outline: {sitting.path.name}.{number}.sig."]
    assert f"signed with the key of R. Outline is that of event {number}" in said(weigh(sitting.path).verdict)


def test_a_decision_at_the_desk_is_signed(tmp_path: Path, home: Path) -> None:
    shop = shop_with(tmp_path, Outline=new_key(home, "outline"))
    sitting = shop.begun()
    go_on(sitting, lambda sitting: bool(sitting.state.technician))
    assert sitting.leave_out("it was done before", NOW) is None
    sitting.stop("waits for a decision", NOW)
    told: list[str] = []
    refused = judging.decide(
        shop.workspace,
        load_registers(shop.workspace),
        sitting.path,
        1,
        "use as is",
        "r outline",
        "as it should be",
        NOW + timedelta(days=1),
        tell=told.append,
    )
    assert refused is None
    number = sitting.record.event_count + 1
    assert told == [f"Signed with the key of R. Outline: {sitting.path.name}.{number}.sig."]
    verdict = weigh(sitting.path).verdict
    assert f"signed with the key of R. Outline is that of event {number}" in said(verdict) and verdict.intact
