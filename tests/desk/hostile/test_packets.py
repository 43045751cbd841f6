"""Files that somebody laid into the folder of packets: links, pages with scripts, names up to no good."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import pytest
from tests.desk.hostile.bench import Bench, bench

AT = "/piece/stand/publish"
WORST = "default-src *; script-src * &#x27;unsafe-inline&#x27;\r\nset-cookie: a=b\u2028"
NAMES = ("a\"b'; filename=x.pdf", "a\r\nset-cookie: a=b.pdf", "a\u202efdp.exe.pdf", "ü ½.pdf", "a;b.pdf")


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("hostile") / "pieces"
    folder.mkdir()
    with bench(folder) as opened:
        yield opened


@pytest.fixture
def packet(desk: Bench) -> Path:
    return desk.folder / "packets" / "stand"


@pytest.mark.parametrize(
    "content",
    [
        f'<meta http-equiv="Content-Security-Policy" content="{WORST}"><script>x</script>'.encode(),
        b'<meta content="style-src &#x27;sha256-' + b"x" * 44 + b'&#x27; *; script-src *">',
        b"\xff\xfe\x00 no text at all",
        b"",
    ],
)
def test_a_page_laid_in_may_do_nothing(desk: Bench, packet: Path, content: bytes) -> None:
    (packet / "laid in.html").write_bytes(content)
    answer = desk.client.get(f"{AT}/laid in.html")
    policy = answer.headers["content-security-policy"]
    assert answer.status_code == 200
    assert policy.startswith("sandbox; frame-ancestors 'none'; default-src 'none'; style-src '")
    assert policy.endswith("'; base-uri 'none'; form-action 'none'")
    assert "*" not in policy
    assert "set-cookie" not in answer.headers


@pytest.mark.parametrize("name", NAMES)
def test_names_are_kept_inside_their_header(desk: Bench, packet: Path, name: str) -> None:
    (packet / name).write_bytes(b"%PDF-")
    answer = desk.client.get(f"{AT}/{quote(name, safe='')}")
    assert desk.client.get(AT).status_code == 200
    if not name.isprintable():
        assert answer.status_code == 404
        return
    said = answer.headers["content-disposition"]
    assert answer.status_code == 200
    assert said.startswith("inline; filename")
    assert said.count(";") == 1
    assert "\n" not in said


def test_a_name_that_is_no_text_is_passed_over(desk: Bench, packet: Path) -> None:
    (packet / "a\udcff.pdf").write_bytes(b"%PDF-")
    answer = desk.client.get(AT)
    assert answer.status_code == 200
    assert "s.pdf" in answer.text


def test_links_are_not_followed(desk: Bench) -> None:
    assert desk.client.get(f"{AT}/linked.pdf").status_code == 404
    for address in ("/piece/crlf/publish", "/piece/crlf/publish/state", "/piece/crlf/publish/secret.pdf"):
        answer = desk.client.get(address)
        assert answer.status_code == 422
        assert "leads elsewhere" in answer.text
        assert "secret" not in answer.text.replace("secret.pdf", "")


def test_no_packet_is_made_where_a_link_leads(desk: Bench) -> None:
    desk.client.post("/piece/crlf/publish/make", data={"paper": "a4", "units": ""})
    assert [path.name for path in (desk.folder.parent / "outside" / "packets").iterdir()] == ["secret.pdf"]


@pytest.mark.parametrize("name", ["..", ".", "...", "x/../..", "\\", "..yaml"])
def test_no_piece_leads_up(desk: Bench, name: str) -> None:
    if "/" not in name and name not in (".", ".."):
        (desk.folder / f"{name}.yaml").write_bytes(b"piece: Up\n")
    address = f"/piece/{name.replace('.', '%2e').replace('/', '%2f')}/publish"
    assert desk.client.get(address).status_code == 404
