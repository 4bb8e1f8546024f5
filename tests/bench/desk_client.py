"""Asks a running desk what its page asks. Used by tests/bench/desk."""
import json
import pathlib
import subprocess
import threading
import time
import urllib.error
import urllib.parse
import urllib.request

WIDTH = 256  # pixels: a card in the grid of the page
OUT_OF_REACH = {"http_proxy": "", "PATH": "/usr/bin:/bin"}


class Desk:
    """`quoin desk FOLDER`, from its start on."""

    def __init__(self, quoin, folder, cache):
        self.begun = time.perf_counter()
        self.process = subprocess.Popen(
            [quoin, "desk", folder, "--no-open"], stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL, text=True,
            env=OUT_OF_REACH | {"XDG_CACHE_HOME": str(cache)})
        address = self.process.stdout.readline().split()[-1]
        self.base, self.token = address.split("/#")
        self.state = None

    def ask(self, path, body=None, **query):
        target = self.base + path + ("?" + urllib.parse.urlencode(query) if query else "")
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(target, data, {"X-Quoin-Token": self.token})
        with urllib.request.urlopen(request, timeout=120) as reply:
            return reply.read()

    def look(self):
        self.state = json.loads(self.ask("/api/state"))
        return self.state

    def stamps(self):
        return {drawing["key"]: drawing["stamp"] for drawing in self.state["drawings"]}

    def picture(self, key, stamp):
        path = f"/api/picture/{urllib.parse.quote(key)}.png"
        return self.ask(path, w=WIDTH, stamp=stamp)

    def pictures(self, drawings):
        """As a browser asks: five at a time."""
        waiting = list(drawings)

        def take():
            while waiting:
                try:
                    drawing = waiting.pop()
                except IndexError:
                    return
                self.picture(drawing["key"], drawing["stamp"])
        threads = [threading.Thread(target=take) for _ in range(5)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

    def edit(self, changes, **more):
        """The revision that shows the changes."""
        asked = {"base": self.state["revision"], "label": "measured", "changes": changes} | more
        try:
            return json.loads(self.ask("/api/edit", asked))["revision"]
        except urllib.error.HTTPError as refused:
            raise SystemExit(f"an edit was refused: {refused.read().decode()}") from refused

    def edit_cell(self, card, text, column="name"):
        return self.edit([{"kind": "cell", "row": card["row"], "id": card["id"],
                           "column": column, "text": text}])

    def wait_for_checks(self, seconds=300):
        until = time.perf_counter() + seconds
        while not self.look()["checked"]:
            if time.perf_counter() > until:
                raise SystemExit("the checks do not end")
            time.sleep(0.02)

    def events(self):
        stream = urllib.request.urlopen(f"{self.base}/api/events?token={self.token}")
        for line in stream:
            if line.startswith(b"data:"):
                yield json.loads(line[5:])

    def resident(self):
        """Its memory in MB."""
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return int(status.split("VmRSS:")[1].split()[0]) / 1024

    def end(self):
        self.process.terminate()
        self.process.wait(30)
        self.process.stdout.close()
