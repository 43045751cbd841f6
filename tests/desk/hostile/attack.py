"""Requests by the thousand, each a little wrong, over every address the desk has."""

from __future__ import annotations

import random
import re
import traceback
from collections import Counter
from dataclasses import dataclass, field
from time import monotonic
from typing import Any
from urllib.parse import quote

from starlette.routing import Mount, Route, WebSocketRoute
from tests.desk.hostile.bench import OWN, PORT, Bench, kept_wrong
from tests.desk.hostile.forms import Form, forms_in
from tests.desk.hostile.words import ADDRESSES, EVERY, spoiled, word

from scantling.desk.guard.policy import content_policy
from scantling.desk.late import every

POLICY = content_policy(f"ws://127.0.0.1:{PORT}")
SLUGS = (
    "stand",
    "stand",
    "crlf",
    "odd",
    "away",
    "empty",
    "no text",
    "house",
    "shop",
    "linked",
    "it's <b> & 100%",
)
METHODS = ("GET", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "TRACE", "PROPFIND")
ORIGINS = ("null", "http://there.example", f"http://127.0.0.1:{PORT + 1}", "", f"https://127.0.0.1:{PORT}")
PICTURES = (
    b"",
    b"\xff\xd8\xff",
    b"\x89PNG\r\n\x1a\n" + b"\0" * 40,
    b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    b"GIF89a",
)
# Names of fields our pages use, for addresses whose forms no page showed.
FIELDS = (
    *(
        "do",
        "path",
        "was",
        "words",
        "rest",
        "way",
        "name",
        "steps",
        "option",
        "file",
        "part",
        "face",
        "by",
        "number",
    ),
    *(
        "what",
        "keep",
        "field",
        "text",
        "page",
        "at",
        "gone",
        "key",
        "old",
        "step",
        "minutes",
        "label",
        "heard",
        "act",
    ),
    *(
        "axis",
        "size",
        "done",
        "board",
        "grain",
        "column",
        "pasted",
        "kind",
        "from",
        "to",
        "near",
        "far",
        "corners",
    ),
    *(
        "digest",
        "paper",
        "units",
        "start",
        "unit",
        "stack",
        "wood",
        "code",
        "link",
        "photo",
        "away",
        "dry",
        "damp",
    ),
)
ACTS = ("words", "nudge", "choose", "keep", "change", "say", "pull", "remove", "open", "mend", "add")
QUERIES = (
    "name",
    "board",
    "all",
    "have",
    "go",
    "step",
    "minutes",
    "pose",
    "line",
    "find",
    "what",
    "sheet",
    "start",
    "save",
    "to",
)
SLOW = 5.0  # seconds


@dataclass
class Report:
    """What came of an attack. `faults`: what should not have been, in words."""

    asked: int = 0
    answers: Counter[int] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)
    slowest: list[tuple[float, str]] = field(default_factory=list)
    reached: set[str] = field(default_factory=set)


@dataclass
class Attack:
    """One run with one seed."""

    bench: Bench
    chance: random.Random
    report: Report = field(default_factory=Report)
    forms: list[Form] = field(default_factory=list)

    def run(self, count: int) -> Report:
        """Send so many requests, look after the files now and then."""
        self._gather()
        for number in range(1, count + 1):
            self._one()
            if number % 200 == 0 or number == count:
                self.report.faults += kept_wrong(self.bench)
            if number % 400 == 0:
                self._gather()
        return self.report

    def _one(self) -> None:
        way = self.chance.choice(
            (self._form, self._form, self._form, self._bare, self._bare, self._look, self._strange)
        )
        way()

    def _gather(self) -> None:
        """The forms that the pages show now."""
        pages = [
            "/",
            "/rack",
            "/rack/add",
            "/rack/head",
            "/rack/text",
            "/rack/table/machines",
            "/rack/board?board=W1",
        ]
        for slug in ("stand", "crlf", "it's <b> & 100%"):
            here = f"/piece/{quote(slug, safe='')}"
            pages += [
                here,
                f"{here}/text",
                f"{here}/wood",
                f"{here}/build",
                f"{here}/publish",
                f"{here}/build/parts",
            ]
            pages += [f"{here}/part?name=top", f"{here}/adding?what=part", f"{here}/build/part?name=top"]
        found = {
            f"{form.address} {sorted(form.fields)}": form
            for page in pages
            for form in forms_in(self.send("GET", page))
        }
        self.forms = [form for _, form in sorted(found.items())]

    def _form(self) -> None:
        """A form of a page, with something wrong in it."""
        if not self.forms:
            return
        form = self.chance.choice(self.forms)
        fields = list(form.fields)
        for _ in range(self.chance.choice((0, 1, 1, 1, 2, 4))):
            self._spoil(fields)
        self._post(form.address, fields)

    def _spoil(self, fields: list[tuple[str, str]]) -> None:
        if not fields:
            fields.append((self.chance.choice(FIELDS), word(self.chance)))
            return
        at = self.chance.randrange(len(fields))
        name, value = fields[at]
        match self.chance.randrange(6):
            case 0:
                del fields[at]
            case 1:
                fields.append((name, word(self.chance)))
            case 2 | 3:
                fields[at] = (name, spoiled(value, self.chance))
            case _:
                fields[at] = (name, word(self.chance))

    def _bare(self) -> None:
        """Any address that takes something, with fields of any name."""
        routes = [route for route in self._routes() if "POST" in (route.methods or ())]
        route = self.chance.choice(routes)
        names = self.chance.choices(FIELDS, k=self.chance.randrange(8))
        fields = [(name, word(self.chance)) for name in names]
        if route.path.endswith("/act"):
            fields += [
                ("do", self.chance.choice(ACTS)),
                ("path", self.chance.choice((*EVERY, '["sizes", "inset"]'))),
            ]
        self._post(self._filled(route.path), fields)

    def _look(self) -> None:
        """Any address that shows something."""
        route = self.chance.choice([route for route in self._routes() if "GET" in (route.methods or ())])
        asked = [(self.chance.choice(QUERIES), word(self.chance)) for _ in range(self.chance.randrange(3))]
        query = "&".join(
            f"{name}={quote(value.encode('utf-8', 'replace'))[:20_000]}" for name, value in asked
        )
        self.send("GET", f"{self._filled(route.path)}{'?' if query else ''}{query}")

    def _strange(self) -> None:
        """Wrong methods, pages, kinds of body and headers."""
        route = self.chance.choice(list(self._routes()))
        address = self._filled(route.path)
        match self.chance.randrange(6):
            case 0:
                self.send(self.chance.choice(METHODS), address)
            case 1:
                headers = {"origin": self.chance.choice(ORIGINS)}
                if self.send("POST", address, headers=headers, data={"do": "words"}) and self._last < 400:
                    self.report.faults.append(f"{address} let a strange page write")
            case 2:
                kind = self.chance.choice(
                    (
                        "application/json",
                        "text/plain",
                        "multipart/form-data",
                        "multipart/form-data; boundary=x",
                        "",
                    )
                )
                content = self.chance.choice(
                    (b"", b"{}", b"--x\r\n", b"\xff\xfe\0", b"%" * 500, b"a=%ff%00&=&&=x", b"&" * 2000)
                )
                self.send("POST", address, headers={"content-type": kind}, content=content)
            case 3:
                headers = {
                    "referer": self.chance.choice(
                        ("http://[", f"{OWN}/rack", "//x", f"{OWN}/rack/\\x", "data:x")
                    )
                }
                self.send(
                    "POST",
                    address,
                    headers={**headers, "hx-request": "true"},
                    data={"number": word(self.chance)[:300]},
                )
            case 4:
                self.send(
                    "GET", "/" + "/".join(self.chance.choices(ADDRESSES, k=self.chance.randrange(1, 4)))
                )
            case _:
                file = self.chance.choice(("app.py", "templates/base.html", "../app.py"))
                self.send("GET", f"/static/{self.chance.choice(('..', '%2e%2e'))}/{file}")

    def _post(self, address: str, fields: list[tuple[str, str]]) -> None:
        if address.endswith("/passed") or _really_makes(address, fields):
            return
        if address.endswith("/away") and self.chance.random() < 0.8:
            return
        told: dict[str, list[str]] = {}
        for name, value in fields:
            if name != "anyway":
                told.setdefault(name, []).append(value.encode("utf-8", "replace").decode())
        inside = {"hx-request": "true"} if self.chance.random() < 0.5 else {}
        if self.chance.random() < 0.12:
            name = self.chance.choice([*told, "photo"])
            files = {
                name: (
                    self.chance.choice(("a.jpg", "../a", 'a"b', "x" * 300)),
                    self.chance.choice(PICTURES),
                    "image/jpeg",
                )
            }
            told.pop(name, None)
            self.send("POST", address, headers=inside, data=told, files=files)
        else:
            self.send("POST", address, headers=inside, data=told)

    def send(self, method: str, address: str, **more: Any) -> str:
        """Ask, and judge the answer; its text."""
        self.report.asked += 1
        label = f"{method} {address[:160]} {str({k: v for k, v in more.items() if k != 'headers'})[:400]}"
        start = monotonic()
        try:
            answer = self.bench.client.request(method, address, **more)
        except Exception as error:
            where = traceback.extract_tb(error.__traceback__)
            own = next(
                (
                    f"{line.filename.rpartition('scantling/')[2]}:{line.lineno}"
                    for line in reversed(where)
                    if "src/scantling" in line.filename
                ),
                "?",
            )
            self.report.faults.append(f"{type(error).__name__} at {own}: {str(error)[:150]} — {label}")
            self._last = 500
            return ""
        self.report.slowest = sorted([*self.report.slowest, (monotonic() - start, label)], reverse=True)[:5]
        self._last = answer.status_code
        self.report.answers[answer.status_code] += 1
        self.report.reached.update(
            route.path for route in self._routes() if route.path_regex.match(answer.request.url.path)
        )
        self.report.faults += [f"{fault} — {label}" for fault in self._amiss(answer)]
        return answer.text if "html" in answer.headers.get("content-type", "") else ""

    def _amiss(self, answer: Any) -> list[str]:
        text = f"{answer.text}\n{answer.headers}"
        found = [
            f"a place of this machine is told: {place}" for place in self.bench.secrets() if place in text
        ]
        found += [f"{words} is told" for words in ("the secret words", "UploadFile") if words in text]
        found += [f"a job stumbled: {job}" for job in self.bench.near.stumbled]
        self.bench.near.stumbled.clear()
        if answer.status_code >= 500:
            found.append(f"answered {answer.status_code}")
        policy = answer.headers.get("content-security-policy", "")
        if policy != POLICY and not policy.startswith("sandbox; frame-ancestors 'none'; default-src 'none'"):
            found.append(f"the policy is {policy!r}")
        if answer.headers.get("x-content-type-options") != "nosniff":
            found.append("kinds may be guessed")
        to = answer.headers.get("location", "/")
        if not re.match(r"/(?![/\\])", to) and not to.startswith(OWN + "/"):
            found.append(f"leads away to {to!r}")
        return found

    def _routes(self) -> list[Any]:
        app: Any = self.bench.client.app
        while not hasattr(app, "routes"):
            app = app.app
        return [
            route
            for route in every(app.routes)
            if isinstance(route, Route) and not isinstance(route, Mount | WebSocketRoute)
        ]

    def _filled(self, path: str) -> str:
        def part(found: re.Match[str]) -> str:
            if found[1] == "slug" and self.chance.random() < 0.85:
                return quote(self.chance.choice(SLUGS), safe="")
            if found[2] and self.chance.random() < 0.7:
                return self.chance.choice(("0", "1", "2", "999", "9" * 30, "9" * 4500))
            if found[1] == "section" and self.chance.random() < 0.85:
                return self.chance.choice(("machines", "boards", "sheets", "for-sale", "lumber", "clamps"))
            return self.chance.choice(ADDRESSES)

        return re.sub(r"\{(\w+)(:\w+)?\}", part, path)


def _really_makes(address: str, fields: list[tuple[str, str]]) -> bool:
    """A packet is made by another process and takes its time."""
    said = dict(fields)
    return address.endswith("/publish/make") and said.get("paper") in ("letter", "a4")
