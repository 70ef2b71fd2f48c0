"""One page for a phone in the brewer's own network: one address, one path that nobody guesses.

Only that page is given, only to GET, and only to who asks for it by this address: a page of
elsewhere, whose name was turned to this machine's address (DNS rebinding), asks by another host.
"""

from __future__ import annotations

import ipaddress
import secrets
import socket
import time
from collections.abc import Callable
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import BoundedSemaphore
from typing import Any

from designer.errors import RefusedInputError
from designer.library.system_reason import reason_of
from designer.recipe.message import refused

PORT = 8451
"""The usual port: what a phone's browser keeps, it keeps for one address with its port."""
LASTS_S = 3600.0
PATIENCE_S = 10.0
"""How long a request may take."""
MOST_AT_ONCE = 8
LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"
"""Signs that are typed into a phone without a slip."""
PATH_LENGTH = 10
SOMEWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737). Nothing is sent to it: the way there tells our own."""


def own_address() -> str:
    """Return the address of this machine in its network.

    Raises RefusedInputError where it is in none.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(SOMEWHERE)
            found = str(asked.getsockname()[0])
        except OSError:
            found = ""
    if not found or ipaddress.ip_address(found).is_unspecified:
        raise refused(
            "in-no-network",
            "This machine is in no network, so no phone can reach it; write the page into a file "
            "with -o, or name an address of this machine.",
        )
    return found


class PocketServer(ThreadingHTTPServer):
    """Gives out one page at `url`; `fetched` is told the address of who took it."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(
        self, page: bytes, address: str, port: int = PORT, fetched: Callable[[str], object] = str
    ) -> None:
        """Bind to one address. Raises RefusedInputError where it is none of this machine's."""
        named = _one_address(address)
        self.address_family = socket.AF_INET6 if named.version == 6 else socket.AF_INET
        try:
            super().__init__((str(named), port), _Handler)
        except OSError as fault:
            raise refused(
                "address-not-bound",
                "{address} cannot be offered: {reason}. Name an address that this machine has.",
                address=address,
                reason=reason_of(fault),
            ) from None
        self.page, self.fetched = page, fetched
        self.path = "/" + "".join(secrets.choice(LETTERS) for _ in range(PATH_LENGTH))
        host = f"[{named}]" if named.version == 6 else str(named)
        self.host = f"{host}:{self.server_address[1]}"
        self.url = f"http://{self.host}{self.path}"
        self._room = BoundedSemaphore(MOST_AT_ONCE)

    def serve_for(self, seconds: float = LASTS_S) -> None:
        """Give the page out for so long."""
        ends = time.monotonic() + seconds
        while (left := ends - time.monotonic()) > 0:
            self.timeout = left
            self.handle_request()

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread; where too many ask at once, not at all."""
        if not self._room.acquire(blocking=False):
            self.shutdown_request(request)
            return
        super().process_request(request, client_address)

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer, and make room again."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._room.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A phone that goes away in the middle is nothing to tell."""


def server_for(page: bytes, address: str, fetched: Callable[[str], object] = str) -> PocketServer:
    """Return a server at the usual port, or at any other where that is taken."""
    try:
        return PocketServer(page, address, PORT, fetched)
    except RefusedInputError:
        return PocketServer(page, address, 0, fetched)


def _one_address(address: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address:
    try:
        named = ipaddress.ip_address(address)
    except ValueError:
        named = None
    if named is None or named.is_unspecified or named.is_multicast:
        raise refused(
            "not-one-address",
            "{address} is not one address of this machine; name one such as 192.168.1.20, or none.",
            address=address,
        )
    return named


class _Handler(BaseHTTPRequestHandler):
    """Answers one request."""

    server: PocketServer
    timeout = PATIENCE_S
    server_version, sys_version = "Hobwort", ""

    def parse_request(self) -> bool:
        """Let through what asks for the page, in the one way that is allowed."""
        if not super().parse_request():
            return False
        if self.command != "GET":
            self._refuse(HTTPStatus.METHOD_NOT_ALLOWED)
        elif self.headers.get_all("Host", []) != [self.server.host]:
            self._refuse(HTTPStatus.MISDIRECTED_REQUEST)
        elif not secrets.compare_digest(self.path.encode(), self.server.path.encode()):
            self._refuse(HTTPStatus.NOT_FOUND)
        else:
            return True
        return False

    def do_GET(self) -> None:
        """Give the page."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(self.server.page)))
        self._send_guards()
        self.end_headers()
        self.server.fetched(str(self.client_address[0]))
        self.wfile.write(self.server.page)

    def _refuse(self, status: HTTPStatus) -> None:
        self.send_response(status)
        if status is HTTPStatus.METHOD_NOT_ALLOWED:
            self.send_header("Allow", "GET")
        self.send_header("Content-Length", "0")
        self._send_guards()
        self.end_headers()

    def _send_guards(self) -> None:
        """Nobody keeps it, frames it or guesses what it is."""
        for name, value in (
            ("Cache-Control", "no-store"),
            ("X-Content-Type-Options", "nosniff"),
            ("X-Frame-Options", "DENY"),
            ("Referrer-Policy", "no-referrer"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Connection", "close"),
        ):
            self.send_header(name, value)
        self.close_connection = True

    def log_message(self, format: str, *args: Any) -> None:
        """What was asked is nobody's business."""
