"""The pack of a year: whole or not there, the same bytes each time, links that lead there, digests that are true."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import zipfile
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from urllib.parse import unquote

import pytest
from click.testing import CliRunner, Result

from ledger_tools.commands import cli, filling
from ledger_tools.commands.files import MANIFEST, book_files
from ledger_tools.commands.year_pages import Names, file_name

from ..render.pages import ODD, packs
from ..render.reading import Read

SAMPLES = Path(__file__).parents[2] / "sample_books"
SALTMARSH, HARBOUR = SAMPLES / "saltmarsh", SAMPLES / "harbour"
ON = ("--on", "2026-11-25")
BOOK = '''\
landlord me "Me"
property mill-3 "3 Mill Lane"
    bought 1 May 2024 for £100,000
    as bought lettable
    price normal
tenancy one at mill-3
    tenants "A. Tenant"
    periodic from 1 Jun 2024
    rent £500 a month, first due 1 Jun 2024
at mill-3
1 Jun 2025  received  rent £500.00 from one
2 Jun 2025  repaired  roof £90.00 by "Ridge", receipt "roof.pdf"
'''


def pack(book: Path, folder: Path, *more: str) -> Result:
    return CliRunner().invoke(
        cli, ["year-end", str(book), "--year", "2025-26", "--pack", str(folder), *ON, *more], catch_exceptions=False
    )


def files(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its name there."""
    return {f.relative_to(folder).as_posix(): f.read_bytes() for f in folder.rglob("*") if f.is_file()}


def manifest(folder: Path) -> dict[str, list[dict[str, str]]]:
    told: dict[str, list[dict[str, str]]] = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    return told


@pytest.fixture(scope="module")
def packed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The packs of both sample books, and of one with nasty names everywhere."""
    return packs(tmp_path_factory.mktemp("packs"))


# ── what is in it ────────────────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", ["saltmarsh", "harbour", "nasty"])
def test_the_manifest_tells_every_file_and_its_digest(name: str, packed: dict[str, Path]) -> None:
    found = files(packed[name])
    del found[MANIFEST]

    told = manifest(packed[name])["files"]
    assert [each["file"] for each in told] == sorted(found)
    for each in told:
        data = found[each["file"]]
        assert (each["bytes"], each["sha256"]) == (len(data), hashlib.sha256(data).hexdigest())


def test_the_manifest_tells_the_tool_the_law_and_the_day(packed: dict[str, Path]) -> None:
    from ledger_tools import __version__, law

    told = json.loads((packed["saltmarsh"] / MANIFEST).read_text(encoding="utf-8"))

    assert told["tool"]["version"] == __version__ and told["worked_out_on"] == "2026-11-25"
    assert told["law"]["figures_checked_up_to"] == law.checked_up_to().isoformat()
    assert told["law"]["sha256"] == law.digest()


def test_the_digest_of_the_law_changes_with_any_figure(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from ledger_tools.law import load

    before = load.digest()
    shutil.copytree(load.FOLDER, tmp_path / "law")
    monkeypatch.setattr(load, "FOLDER", tmp_path / "law")
    assert load.digest() == before
    file = tmp_path / "law" / "mileage" / sorted(os.listdir(tmp_path / "law" / "mileage"))[0]
    file.write_text(file.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    assert load.digest() != before


def test_receipts_are_copied_as_they_are(packed: dict[str, Path]) -> None:
    told = manifest(packed["saltmarsh"])["papers"]

    assert len(told) == 14
    for each in told:
        assert (packed["saltmarsh"] / each["file"]).read_bytes() == (SALTMARSH / each["named"]).read_bytes()
    boiler = next(each for each in told if each["named"] == "receipts/0609-boiler.txt")
    assert boiler["lines"] == ["diary.book:38"]


def test_the_copy_of_the_book_makes_the_same_figures(packed: dict[str, Path]) -> None:
    def boxes(book: Path) -> str:
        out = CliRunner().invoke(cli, ["year-end", str(book), "--year", "2025-26", *ON, "--format", "json"]).stdout
        return re.sub(r'"source": "[^"]*/', '"source": "', out)

    assert boxes(packed["saltmarsh"] / "book") == boxes(SALTMARSH)


def test_the_official_bodies_are_those_that_quarter_prints(packed: dict[str, Path]) -> None:
    for number in ("1", "2", "3", "4"):
        arguments = ["quarter", str(SALTMARSH), "--year", "2025-26", "--quarter", number, *ON, "--format", "json"]
        printed = CliRunner().invoke(cli, arguments).stdout
        body = packed["saltmarsh"] / "for-the-tax-office" / f"update-{number}-imogen.json"
        assert body.read_text(encoding="utf-8") == printed


def test_every_house_and_owner_has_pages(packed: dict[str, Path]) -> None:
    names = {Path(name).name for name in files(packed["harbour"])}

    for house in ("chapel-9", "foundry-3", "mill-5", "quay-2", "strand-11"):
        assert {f"profit-{house}.html", f"base-cost-{house}.html", f"worth-{house}.html"} <= names
    for owner in ("morwenna", "daniel", "isolde"):
        assert f"year-end-{owner}.html" in names
    assert {"profit-all-houses.html", "works.html", "open-questions.html", "book.html"} <= names


def test_the_first_page_names_who_must_check_it_and_how_far_the_law_was_checked(packed: dict[str, Path]) -> None:
    text = (packed["saltmarsh"] / "index.html").read_text(encoding="utf-8")
    page = (packed["saltmarsh"] / "pages" / "open-questions.html").read_text(encoding="utf-8")

    assert "Who must check it" in text and "This is no tax advice" in text and "checked up to" in text
    count = re.search(r"<li><bdi>You, with an accountant or adviser: (\d+) questions are open", text)
    assert count and int(count[1]) == len(re.findall(r'<details class="item open"', page)) > 2


def test_the_workbook_has_a_sheet_a_statement_and_every_line_behind_them(packed: dict[str, Path]) -> None:
    openpyxl = pytest.importorskip("openpyxl", reason="workbooks need openpyxl (the extra xlsx)")
    book = openpyxl.load_workbook(packed["harbour"] / "figures.xlsx")

    assert book.sheetnames == [
        "Year-end", "Quarter", "Profit", "Audit", "Base-cost", "Void", "Rents", "Worth", "Lines", "Money",
    ]  # fmt: skip
    sums = [row[5] for row in book["Lines"].iter_rows(min_row=2, values_only=True)]
    spoken: list[int] = []
    for sheet in book.worksheets[:-2]:
        for row in sheet.iter_rows():
            for field in row:
                found = re.fullmatch(r"=ROUND\(SUM\(Lines!F(\d+):F(\d+)\),2\)", str(field.value))
                spoken += range(int(found[1]), int(found[2]) + 1) if found else []
    assert set(spoken) <= set(range(2, len(sums) + 2)) and len(set(spoken)) > 0.9 * len(sums)


# ── the same bytes ───────────────────────────────────────────────────────────────────────────────────────────────


def test_the_same_book_and_day_make_the_same_bytes(
    packed: dict[str, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copytree(SALTMARSH, tmp_path / "elsewhere")
    monkeypatch.chdir(tmp_path / "elsewhere")
    for file in (tmp_path / "elsewhere").rglob("*"):
        os.utime(file, (1, 1))
    assert pack(Path("."), tmp_path / "again").exit_code == 0

    assert files(tmp_path / "again") == files(packed["saltmarsh"])


def test_the_zip_holds_the_pack_in_order_without_a_clock(packed: dict[str, Path], tmp_path: Path) -> None:
    assert pack(SALTMARSH, tmp_path / "one", "--zip").exit_code == 0
    assert pack(SALTMARSH, tmp_path / "two.zip", "--zip").exit_code == 0

    assert sorted(p.name for p in tmp_path.iterdir()) == ["one.zip", "two.zip"]
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as made:
        names = [part.filename for part in made.infolist()]
        assert names == sorted(names) and {part.date_time for part in made.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert {n.partition("/")[2]: made.read(n) for n in names} == files(packed["saltmarsh"])


# ── links ────────────────────────────────────────────────────────────────────────────────────────────────────────


def pages(folder: Path) -> Iterator[tuple[Path, Read]]:
    for file in sorted(folder.rglob("*.html")):
        yield file, Read(file.read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", ["saltmarsh", "harbour", "nasty"])
def test_every_link_of_every_page_leads_to_a_file_and_an_anchor(name: str, packed: dict[str, Path]) -> None:
    read = {file.resolve(): found for file, found in pages(packed[name])}

    links = 0
    for file, found in read.items():
        assert found.wrong == [] and len(found.ids) == len(set(found.ids))
        for link in found.links:
            way, _, anchor = link.partition("#")
            assert not re.match(r"[a-z]+:|/", way)
            end = (file.parent / unquote(way)).resolve() if way else file
            assert end.is_file() and end.is_relative_to(packed[name].resolve())
            assert not anchor or anchor in read[end].ids
            links += 1
    assert links > 200


def test_every_file_is_named_on_the_first_page(packed: dict[str, Path]) -> None:
    for folder in packed.values():
        links = {unquote(link) for link in Read((folder / "index.html").read_text(encoding="utf-8")).links}
        assert {name for name in files(folder) if name != "index.html"} <= links


@pytest.mark.parametrize("name", ["saltmarsh", "harbour"])
def test_walking_back_reaches_the_line_that_is_named(name: str, packed: dict[str, Path]) -> None:
    book = Read((packed[name] / "pages" / "book.html").read_text(encoding="utf-8"))
    steps = 0
    for file in (packed[name] / "pages").glob("*.html"):
        for anchor, short, line in re.findall(
            r'<a class="place" href="book\.html#([^"]*)"><bdi>([^<]*):(\d+)</bdi></a>', file.read_text(encoding="utf-8")
        ):
            told = (SAMPLES / name / unescape(short)).read_text(encoding="utf-8").split("\n")[int(line) - 1]
            assert book.by_id[anchor].startswith(told)
            steps += 1
    assert steps > 500


def test_a_line_of_the_book_leads_to_its_receipt(packed: dict[str, Path]) -> None:
    text = (packed["saltmarsh"] / "pages" / "book.html").read_text(encoding="utf-8")

    boiler = next(line for line in text.split("\n") if "0609-boiler" in line)
    way = re.search(r'href="\.\./([^"]*)"', boiler)
    assert way and (packed["saltmarsh"] / way[1]).read_bytes() == (SALTMARSH / "receipts/0609-boiler.txt").read_bytes()


# ── never over another, and nothing half ─────────────────────────────────────────────────────────────────────────


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "a.book").write_text(BOOK, encoding="utf-8")
    (tmp_path / "b" / "roof.pdf").write_bytes(b"paid")
    return tmp_path / "b"


def test_a_pack_is_left_alone_unless_told(book: Path, tmp_path: Path) -> None:
    pack(book, tmp_path / "p")
    before = files(tmp_path / "p")
    (book / "a.book").write_text(BOOK.replace("£90.00", "£95.00"), encoding="utf-8")
    refused = pack(book, tmp_path / "p")

    assert refused.exit_code == 1 and "is there already and was left alone" in refused.output
    assert files(tmp_path / "p") == before
    assert pack(book, tmp_path / "p", "--force").exit_code == 0
    assert files(tmp_path / "p") != before
    assert sorted(os.listdir(tmp_path)) == ["b", "p"]


def test_a_zip_is_left_alone_unless_told(book: Path, tmp_path: Path) -> None:
    (tmp_path / "p.zip").write_text("mine", encoding="utf-8")

    assert pack(book, tmp_path / "p", "--zip").exit_code == 1
    assert (tmp_path / "p.zip").read_text(encoding="utf-8") == "mine"
    assert pack(book, tmp_path / "p", "--zip", "--force").exit_code == 0
    assert zipfile.is_zipfile(tmp_path / "p.zip")


def test_a_folder_that_is_no_pack_is_never_replaced(book: Path, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear", encoding="utf-8")
    refused = pack(book, tmp_path / "mine", "--force")

    assert refused.exit_code == 1 and "is no pack" in refused.output
    assert files(tmp_path / "mine") == {"letter.txt": b"dear"}


def test_a_pack_to_which_something_was_added_is_not_replaced(book: Path, tmp_path: Path) -> None:
    pack(book, tmp_path / "p")
    (tmp_path / "p" / "notes.txt").write_text("ask about the roof", encoding="utf-8")
    refused = pack(book, tmp_path / "p", "--force")

    assert refused.exit_code == 1 and "not of the pack (notes.txt)" in refused.output
    assert (tmp_path / "p" / "notes.txt").exists()


def test_an_empty_folder_is_filled_and_a_file_or_link_is_not(book: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_text("", encoding="utf-8")
    (tmp_path / "link").symlink_to(tmp_path / "empty")

    assert pack(book, tmp_path / "file", "--force").exit_code == 1
    assert pack(book, tmp_path / "link", "--force").exit_code == 1
    assert pack(book, tmp_path / "empty").exit_code == 0 and (tmp_path / "empty" / "index.html").exists()


def test_nothing_half_is_left_where_the_disk_fails(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pack(book, tmp_path / "p")
    before = files(tmp_path / "p")
    seen: list[int] = []

    def full(handle: int) -> None:
        seen.append(handle)
        if len(seen) > 5:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(filling.os, "fsync", full)
    failed = pack(book, tmp_path / "p", "--force")

    assert failed.exit_code == 1 and "No space left" in failed.output
    assert files(tmp_path / "p") == before and sorted(os.listdir(tmp_path)) == ["b", "p"]


def test_the_old_pack_comes_back_where_the_new_one_cannot_take_its_place(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pack(book, tmp_path / "p")
    before, rename = files(tmp_path / "p"), os.rename

    def refuses(old: Path, new: Path) -> None:
        if str(old).endswith(".part"):
            raise PermissionError(1, "Operation not permitted")
        rename(old, new)

    monkeypatch.setattr(filling.os, "rename", refuses)
    assert pack(book, tmp_path / "p", "--force").exit_code == 1
    assert files(tmp_path / "p") == before and sorted(os.listdir(tmp_path)) == ["b", "p"]


def test_a_pack_in_the_folder_of_its_book_is_no_part_of_the_book(book: Path) -> None:
    first = pack(book, book / "pack-2025-26")
    again = pack(book, book / "pack-2025-26", "--force")

    assert first.exit_code == again.exit_code == 0
    assert book_files(book) == [book / "a.book"]
    assert book_files(book / "pack-2025-26") == [book / "pack-2025-26" / "book" / "a.book"]


# ── receipts ─────────────────────────────────────────────────────────────────────────────────────────────────────


def name_receipt(book: Path, name: str) -> None:
    (book / "a.book").write_text(BOOK.replace("roof.pdf", name), encoding="utf-8")


def test_a_missing_receipt_is_told_and_stops_nothing(book: Path, tmp_path: Path) -> None:
    name_receipt(book, "gone.pdf")
    result = pack(book, tmp_path / "p")

    assert result.exit_code == 0 and 'a.book:12: "gone.pdf" is not there' in result.output
    (told,) = manifest(tmp_path / "p")["papers"]
    assert told["file"] is None and told["told"].startswith("not there")
    assert "gone.pdf" in (tmp_path / "p" / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("way", ["../secret.txt", "{outside}", "link.txt", "folder/secret.txt", "x/../../secret.txt"])
def test_a_receipt_cannot_lead_out_of_the_folder_of_the_book(way: str, book: Path, tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    (book / "link.txt").symlink_to(tmp_path / "secret.txt")
    (book / "folder").symlink_to(tmp_path)
    name_receipt(book, way.format(outside=tmp_path / "secret.txt"))
    result = pack(book, tmp_path / "p")

    assert result.exit_code == 0 and "outside the folder of the book, so left alone" in result.output
    assert not any(data == b"secret" for data in files(tmp_path / "p").values())
    doubt = CliRunner().invoke(cli, ["proof", str(book), *ON])
    assert "(file-outside)" in doubt.output and doubt.exit_code == 0


def test_a_folder_that_is_allowed_gives_its_receipts_and_no_others(book: Path, tmp_path: Path) -> None:
    for name in ("post", "private"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "roof.txt").write_text(name, encoding="utf-8")
    allow = ("--receipts-from", str(tmp_path / "post"))

    name_receipt(book, "../post/roof.txt")
    assert pack(book, tmp_path / "one", *allow).exit_code == 0
    assert (tmp_path / "one" / "receipts-and-photos" / "001-roof.txt").read_text(encoding="utf-8") == "post"
    assert "outside" not in CliRunner().invoke(cli, ["proof", str(book), *ON, *allow]).output
    name_receipt(book, "../private/roof.txt")
    assert "so left alone" in pack(book, tmp_path / "two", *allow).output


def test_what_is_no_plain_file_is_not_copied(book: Path, tmp_path: Path) -> None:
    (book / "folder.pdf").mkdir()
    os.mkfifo(book / "pipe.pdf")
    for name in ("folder.pdf", "pipe.pdf"):
        name_receipt(book, name)
        result = pack(book, tmp_path / name.removesuffix(".pdf"))
        assert result.exit_code == 0 and "could not be read" in result.output


def test_two_receipts_of_one_name_are_both_kept_and_one_named_twice_is_copied_once(book: Path, tmp_path: Path) -> None:
    for folder in ("x", "y"):
        (book / folder).mkdir()
        (book / folder / "r.pdf").write_text(folder, encoding="utf-8")
    line = '3 Jun 2025 repaired roof £1{n}.00 by "Ridge", receipt "{name}"\n'
    names = ("x/r.pdf", "y/r.pdf", "x/r.pdf")
    more = "".join(line.format(n=n, name=name) for n, name in enumerate(names))
    (book / "a.book").write_text(BOOK + more, encoding="utf-8")
    pack(book, tmp_path / "p")

    copies = {name: data for name, data in files(tmp_path / "p").items() if name.startswith("receipts")}
    assert copies == {
        "receipts-and-photos/001-roof.pdf": b"paid", "receipts-and-photos/002-r.pdf": b"x",
        "receipts-and-photos/003-r.pdf": b"y",
    }  # fmt: skip
    assert [len(each["lines"]) for each in manifest(tmp_path / "p")["papers"]] == [1, 2, 1]


# ── names that could do harm ─────────────────────────────────────────────────────────────────────────────────────


def test_names_of_files_are_harmless_everywhere(packed: dict[str, Path]) -> None:
    for folder in packed.values():
        for name in files(folder):
            assert all(re.fullmatch(r"[a-z0-9][a-z0-9.-]*[a-z0-9]", part) for part in name.split("/"))
            assert all(len(part) < 100 for part in name.split("/"))
            assert not re.search(r"(^|/)(con|prn|aux|nul|com\d|lpt\d)(\.|$)", name)


def test_nasty_names_are_words_on_every_page_and_their_receipts_come_along(packed: dict[str, Path]) -> None:
    for _, found in pages(packed["nasty"]):
        assert not [tag for tag, _ in found.tags if tag in ("script", "img", "b", "iframe", "form")]
        assert not [name for _, told in found.tags for name in told if name.startswith("on")]
    told = {each["named"]: each for each in manifest(packed["nasty"])["papers"]}
    for name in ODD:
        assert (packed["nasty"] / told[name]["file"]).read_text(encoding="utf-8") == f"the receipt {name}"


@pytest.mark.parametrize(
    ("words", "name"),
    [("mill-3", "mill-3"), ("o'brien", "o-brien"), ("Zoë", "zoe"), ("\u05d0", "unnamed"), ("../..", "unnamed"),
     ("a/b\\c", "a-b-c"), ("x" * 100, "x" * 60), ("..", "unnamed"), ("-rf", "rf"), ("\n", "unnamed")],
)  # fmt: skip
def test_a_name_for_a_file(words: str, name: str) -> None:
    assert file_name(words) == name


def test_no_two_files_get_one_name() -> None:
    names = Names()

    assert [names.give(each, ".html") for each in ("a", "a", "a-2", "a")] == [
        "a.html", "a-2.html", "a-2-2.html", "a-3.html",
    ]  # fmt: skip


# ── what does not go together ────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("more", [("--lines",), ("--format", "json"), ("--output", "a.html")])
def test_a_pack_takes_no_form(more: tuple[str, ...], book: Path, tmp_path: Path) -> None:
    assert pack(book, tmp_path / "p", *more).exit_code == 2


def test_a_zip_without_a_pack_is_told(book: Path) -> None:
    result = CliRunner().invoke(cli, ["year-end", str(book), "--zip"])

    assert result.exit_code == 2 and "goes with `--pack FOLDER`" in result.output


def test_a_book_with_errors_makes_no_pack(book: Path, tmp_path: Path) -> None:
    (book / "a.book").write_text(BOOK + "4 Jun 2025 repaired\n", encoding="utf-8")
    result = pack(book, tmp_path / "p")

    assert result.exit_code == 1 and str(book / "a.book") in result.output
    assert not (tmp_path / "p").exists()


def test_without_the_libraries_the_first_page_tells_what_is_lacking(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from ledger_tools.commands import pack as packing
    from ledger_tools.commands import pages as drawing
    from ledger_tools.render import pictures

    monkeypatch.setattr(packing, "no_workbooks", lambda: True)
    monkeypatch.setattr(drawing, "no_pictures", lambda: True)
    monkeypatch.setattr(pictures, "missing", lambda: True)
    assert pack(book, tmp_path / "p").exit_code == 0

    text = (tmp_path / "p" / "index.html").read_text(encoding="utf-8")
    assert "landlord-books[xlsx]" in text and "landlord-books[pages]" in text
    assert not (tmp_path / "p" / "figures.xlsx").exists()


def test_a_receipt_kept_on_paper_is_listed_as_such(book: Path, tmp_path: Path) -> None:
    name_receipt(book, "shoebox 1")
    result = pack(book, tmp_path / "p")

    assert result.exit_code == 0 and "is not there" not in result.output
    (told,) = manifest(tmp_path / "p")["papers"]
    assert (told["file"], told["told"]) == (None, "kept on paper")
