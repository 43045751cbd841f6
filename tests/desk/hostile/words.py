"""Words that no page of ours would send."""

# ruff: noqa: E501

from __future__ import annotations

import json
import random

LONG = "w" * 30_000
NUMBERS = (
    *(
        "0",
        "-1",
        "-0",
        "1e309",
        "-1e309",
        "nan",
        "NaN",
        "inf",
        "1/0",
        "12 1/0",
        "0.1.2",
        "1,2,3",
        "²",
        "٣",
        "½½",
    ),
    *(
        "9" * 20,
        "9" * 400,
        "9" * 5000,
        "0." + "0" * 400 + "1",
        "1e-400",
        "0x10",
        "1_000",
        "+5",
        "--5",
        "1 1 1",
        "1 / 2",
    ),
)
SEEN = (
    *("", " ", "\t", "a\tb", "a\nb", "a\r\nX-Set: y", "\0", "a\0b", "\x1b[31m", "\x7f", "\x85", "\ufeff", "\ufffe"),
    *("\u202eabc", "a\u200bb", "\u2066x", "\u2028", "e\u0301" * 50, "👩‍👩‍👧‍👦", "𝔘", "ß", "İ", LONG, "word " * 6000),
    *("<script>alert(1)</script>", "'\"><img src=x onerror=y>", "</textarea><b>", "{{ 7*7 }}", "{% x %}", "${x}", "&amp;"),
    *("=1+1", "@x", "-x", "+x", "#", "a # b", "a: b", "a: b: c", "- x", "? x", "&a x", "*a", "!!x y", "|", ">", "%x", "`"),
    *("{", "}", "[", "]", ",", '"', "'", "''", '"a', "\\", "a\\", "~", "null", "true", "---", "...", "<<: *a", "x,y", "(", ")"),
    *("..", ".", "/", "../../etc/hostname", "%2e%2e%2f", "..\\x", "/etc/hostname", "C:\\x", "file:///etc/hostname", "con", "x.yaml"),
    *("//there.example/", "http://there.example/", "javascript:alert(1)", "/\\there.example", "least within 1 to 9999999999"),
    *("1 within 2 to 1", "thick " * 200, "(" * 500, "1+" * 500 + "1", "min(" * 100, "x" * 121, "DROP TABLE changes;", "' OR 1=1 --"),
)  # fmt: skip
SHAPES = (
    *("5", "null", "true", '"x"', "{}", '{"a": 1}', "[[]]", "[1]", "[null]", "[]", '["\\ud800"]', '["sizes", "\\ud800"]'),
    *("[" * 3000, '["sizes", ["x"]]', '["\\u0000"]', '["parts", "top", "wide", "more", "more"]', '["a"]', "[NaN]", "1e999"),
    *('["sizes"]', '["parts"]', '["machines", "x"]', '["boards", 1]', json.dumps(["x"] * 500), '["..", ".."]', '["sizes", ""]'),
)  # fmt: skip
ADDRESSES = (
    *("..", "%2e%2e", "%2e%2e%2f%2e%2e%2fetc%2fhostname", "..%5c..", "%00", "a%00b", "%ff", "%ed%a0%80", "%0d%0aX:y", "%252e"),
    *("x" * 3000, "9" * 5000, "0", "-1", "%C2%B2", "outside", "shop", "shop.yaml", ".scantling", "%E2%80%AE", "<b>", "a%2fb", ";x", "~"),
)  # fmt: skip
EVERY = (*SEEN, *NUMBERS, *SHAPES)


def word(chance: random.Random) -> str:
    """Any of them, or one of no sense at all."""
    if chance.random() < 0.9:
        return chance.choice(EVERY)
    return "".join(
        chr(chance.choice((chance.randrange(1, 128), chance.randrange(0xD7FF)))) for _ in range(20)
    )


def spoiled(words: str, chance: random.Random) -> str:
    """Words that were right, with a scrap at some place."""
    at = chance.randrange(len(words) + 1)
    scrap = chance.choice(SEEN + NUMBERS)[:200]
    return words[:at] + scrap + words[at + chance.choice((0, 0, 1, 5)) :]
