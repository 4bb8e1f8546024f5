"""The desk as a program that runs, for desk_attacks and desk_troubles."""
import json
import os
import re
import shutil
import socket
import subprocess
import tempfile
import unittest
import time
from pathlib import Path

GAME = """[game]
title = "Reef"
[card]
size = "poker"
[decks.main]
back = "layouts/back.toml"
[[layouts]]
file = "layouts/face.toml"
"""
FACE = """[[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "#e8e0d0"
[[element]]
id = "name"
kind = "text"
text = "{name}"
type = 12
at = [8, 10]
size = [47, 10]
"""
BACK = """[[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "#204060"
"""
CARDS = "id,name,copies\na,Adder,20\nb,Boar,20\n"
SVG = (b'<svg xmlns="http://www.w3.org/2000/svg" width="4" height="4">'
       b'<rect width="4" height="4"/></svg>')


class Answer:
    def __init__(self, raw):
        head, _, self.body = raw.partition(b"\r\n\r\n")
        lines = head.decode("latin-1").split("\r\n")
        found = re.match(r"HTTP/1\.1 (\d{3})", lines[0])
        self.status = int(found[1]) if found else 0
        self.headers = {}
        for line in lines[1:]:
            name, _, value = line.partition(":")
            self.headers[name.lower()] = value.strip()

    def json(self):
        return json.loads(self.body)


def received(connection, is_head=False):
    """One answer, by its length, or all until the other side closes."""
    raw = b""
    while True:
        head, parted, body = raw.partition(b"\r\n\r\n")
        if parted:
            length = re.search(rb"(?i)\r\ncontent-length: *(\d+)", head)
            if is_head or (length and len(body) >= int(length[1])):
                return Answer(raw)
        try:
            more = connection.recv(65536)
        except ConnectionResetError:
            more = b""
        if not more:
            return Answer(raw)
        raw += more


def contents(folder):
    """All that stands in a folder: bytes of files, where links lead, folders."""
    found = {}
    for path in sorted(Path(folder).rglob("*")):
        name = str(path.relative_to(folder))
        if path.is_symlink():
            found[name] = os.readlink(path)
        else:
            found[name] = path.read_bytes() if path.is_file() else None
    return found


class DeskAtWork(unittest.TestCase):
    """A game in a folder of its own, with a desk open on it."""
    program = sources = None

    def setUp(self):
        self.root = Path(tempfile.mkdtemp(prefix="quoin-desk-run-"))
        self.addCleanup(shutil.rmtree, self.root, ignore_errors=True)
        self.folder = self.root / "reef"
        (self.folder / "layouts").mkdir(parents=True)
        for name, text in {"game.toml": GAME, "cards.csv": CARDS, "layouts/face.toml": FACE,
                           "layouts/back.toml": BACK}.items():
            (self.folder / name).write_text(text)
        self.process = None
        self.addCleanup(self.close)

    def open(self, **more):
        environment = dict(os.environ, XDG_CACHE_HOME=str(self.root / "cache"))
        environment.setdefault(
            "LSAN_OPTIONS",
            f"suppressions={self.sources}/tests/leaks.supp:print_suppressions=0")
        self.process = subprocess.Popen(
            [self.program, "desk", self.folder, "--no-open"], stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment, **more)
        line = self.process.stdout.readline().decode()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/#(\w+)", line)
        self.assertTrue(found, line)
        self.port, self.token = int(found[1]), found[2]

    def close(self):
        """Ends the desk, which must end well."""
        if self.process is None:
            return
        process, self.process = self.process, None
        process.terminate()
        _, said = process.communicate(timeout=60)
        self.assertEqual(process.returncode, 0, said.decode())

    def kill(self):
        process, self.process = self.process, None
        process.kill()
        process.communicate(timeout=60)

    def connect(self):
        connection = socket.create_connection(("127.0.0.1", self.port), timeout=60)
        self.addCleanup(connection.close)
        return connection

    def send(self, raw, is_head=False):
        """What is answered to these bytes; an answer of status 0 when nothing is."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=60) as connection:
            try:
                connection.sendall(raw)
            except (BrokenPipeError, ConnectionResetError):
                pass  # it was refused before all was sent
            return received(connection, is_head)

    def request(self, method, target, body=None, **headers):
        """The bytes of a request; headers by name with '_' for '-', None to leave one out."""
        said = {"Host": f"127.0.0.1:{self.port}", "X-Quoin-Token": self.token,
                "Connection": "close"}
        if body is not None:
            said["Content-Length"] = str(len(body))
        said.update({name.replace("_", "-"): value for name, value in headers.items()})
        lines = [f"{name}: {value}" for name, value in said.items() if value is not None]
        head = "\r\n".join([f"{method} {target} HTTP/1.1", *lines]) + "\r\n\r\n"
        return head.encode("latin-1") + (body or b"")

    def ask(self, method, target, body=None, **headers):
        if isinstance(body, dict):
            body = json.dumps(body).encode()
        if method == "POST" and body is None:
            body = b""
        return self.send(self.request(method, target, body, **headers), method == "HEAD")

    def state(self):
        return self.ask("GET", "/api/state").json()

    def state_when(self, holds):
        until = time.monotonic() + 60
        while True:
            state = self.state()
            if holds(state):
                return state
            self.assertLess(time.monotonic(), until, "it never came about")
            time.sleep(0.05)

    def rename_card(self, name, **more):
        state = self.state()
        change = {"kind": "cell", "row": 0, "id": "a", "column": "name", "text": name}
        return self.ask("POST", "/api/edit", {"base": state["revision"], "label": "name the card",
                                              "changes": [change], **more})

    def assert_alive(self):
        self.assertIsNone(self.process.poll(), "the desk has ended")
        self.assertEqual(self.state()["title"], "Reef")
