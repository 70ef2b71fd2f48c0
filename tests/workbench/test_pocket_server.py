"""The page offered in one's own network: given to who asks for it rightly, and to nobody else.

Only addresses of this machine's loop are used, and each test asks a handful of times.
"""

from __future__ import annotations

import http.client
import re
import socket
import threading
import time

import pytest

from designer.command_line import pocket, run
from designer.errors import RefusedInputError
from designer.resource_files import resource_path
from designer.workbench import pocket_server
from designer.workbench.pocket_server import PocketServer, server_for

PAGE = "<!DOCTYPE html><title>Hübsch</title>".encode()
PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def server():
    """A server that offers a page at the loop, ended with the test."""
    took = []
    made = PocketServer(PAGE, "127.0.0.1", 0, took.append)
    made.took = took
    thread = threading.Thread(target=made.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    yield made
    made.shutdown()
    thread.join()
    made.server_close()


def asked(server, path=None, method="GET", **headers):
    """Ask, and return status, headers and body."""
    asking = http.client.HTTPConnection(*server.server_address[:2], timeout=10)
    asking.putrequest(method, path or server.path, skip_host=True, skip_accept_encoding=True)
    for name, value in {"Host": server.host, **headers}.items():
        if value is not None:
            asking.putheader(name, value)
    asking.endheaders()
    answer = asking.getresponse()
    body = answer.read()
    asking.close()
    return answer.status, dict(answer.getheaders()), body


def test_who_has_the_address_gets_the_page_and_that_is_told(server):
    status, headers, body = asked(server)
    assert (status, body) == (200, PAGE)
    assert headers["Content-Type"] == "text/html; charset=utf-8"
    assert headers["Cache-Control"] == "no-store"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "Python" not in headers["Server"]
    assert server.took == ["127.0.0.1"]


@pytest.mark.parametrize(
    "path", ["/", "/index.html", "/../etc/passwd", "//", "{path}/", "{path}?x", "{path}x", "/%2e"]
)
def test_every_other_path_is_refused(server, path):
    status, _, body = asked(server, path.format(path=server.path))
    assert (status, body) == (404, b"")
    assert server.took == []


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "OPTIONS", "TRACE", "ODD"])
def test_every_other_way_to_ask_is_refused(server, method):
    status, headers, body = asked(server, method=method)
    assert (status, body) == (405, b"")
    assert headers["Allow"] == "GET"


@pytest.mark.parametrize("host", ["evil.example", "localhost", "127.0.0.1", "{host}.", None])
def test_who_comes_by_another_host_is_refused(server, host):
    """A page of elsewhere whose name was turned to this address (DNS rebinding)."""
    status, _, body = asked(server, Host=host and host.format(host=server.host))
    assert (status, body) == (421, b"")


def test_the_path_is_long_and_another_each_time():
    paths = set()
    for _ in range(20):
        with PocketServer(PAGE, "127.0.0.1", 0) as made:
            paths.add(made.path)
            assert re.fullmatch(r"/[a-z2-9]{10}", made.path)
    assert len(paths) == 20


def test_it_listens_at_one_address_alone(server):
    host, port = server.server_address[:2]
    assert host == "127.0.0.1"
    with socket.socket() as other:
        other.settimeout(2)
        assert other.connect_ex(("127.0.0.2", port)) != 0


@pytest.mark.parametrize(
    "address", ["0.0.0.0", "::", "224.0.0.1", "everywhere", "", "127.0.0.1:80"]
)
def test_what_is_not_one_address_is_refused(address):
    with pytest.raises(RefusedInputError, match="not one address"):
        server_for(PAGE, address)


def test_an_address_of_another_machine_is_refused():
    with pytest.raises(RefusedInputError, match="cannot be offered"):
        server_for(PAGE, "192.0.2.7")  # an address for documentation: no machine has it


def test_where_the_usual_port_is_taken_another_is_used():
    with server_for(PAGE, "127.0.0.1") as first, server_for(PAGE, "127.0.0.1") as second:
        assert first.url != second.url
        assert second.server_address[1] not in (0, first.server_address[1])


def test_who_says_nothing_holds_nobody_up(server):
    with socket.create_connection(server.server_address[:2]) as silent:
        silent.send(b"GET ")
        assert asked(server)[0] == 200


@pytest.fixture
def command(capsys, monkeypatch):
    for key in ("LANGUAGE", "LC_ALL", "LC_MESSAGES"):
        monkeypatch.delenv(key, raising=False)
    monkeypatch.setenv("LANG", "C.UTF-8")

    def wanted(*words):
        code = run(["sheet", PORTER, *map(str, words)])
        output = capsys.readouterr()
        return code, output.out, output.err

    return wanted


def test_the_command_says_plainly_what_it_does_and_ends_by_itself(command, monkeypatch, tmp_path):
    fetched = []

    class Told(PocketServer):
        def serve_for(self, seconds):
            asking = threading.Thread(target=lambda: fetched.append(asked(self)))
            asking.start()
            super().serve_for(0.5)
            asking.join()

    monkeypatch.setattr(pocket_server, "PocketServer", Told)
    place = tmp_path / "pocket.html"
    code, said, complaints = command("--pocket", "--serve", "127.0.0.1", "-o", place)
    assert (code, complaints) == (0, "")
    assert re.search(r"http://127\.0\.0\.1:\d+/[a-z2-9]{10}\n", said)
    assert "Whoever is in the same network" in said
    assert "Ctrl+C, or by itself at " in said
    assert "It was opened from 127.0.0.1." in said
    assert said.endswith("The page is not offered any more.\n")
    [(status, _, body)] = fetched
    assert (status, body) == (200, place.read_bytes())


def test_ctrl_c_ends_it_without_a_fault(command, monkeypatch):
    def broken_off(self, seconds):
        raise KeyboardInterrupt

    monkeypatch.setattr(PocketServer, "serve_for", broken_off)
    code, said, complaints = command("--pocket", "--serve", "127.0.0.1")
    assert (code, complaints) == (0, "")
    assert said.endswith("The page is not offered any more.\n")


def test_after_its_time_it_is_over():
    with PocketServer(PAGE, "127.0.0.1", 0) as made:
        began = time.monotonic()
        made.serve_for(0.2)
        assert 0.2 <= time.monotonic() - began < 30
    with socket.socket() as other:
        assert other.connect_ex(made.server_address[:2]) != 0
    assert pocket.LASTS_S == 3600


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--serve",), "give both"),
        ((), "-o names the file"),
        (("--pocket",), "-o names the file"),
        ((PORTER, "--pocket", "--serve", "127.0.0.1"), "name one file"),
    ],
)
def test_options_that_do_not_go_together_are_wrong_usage(command, words, said):
    code, lines, complaints = command(*words)
    assert (code, lines) == (2, "")
    assert said in complaints
