"""Serves a folder on the loopback interface and prints the address.

    python3 server.py FOLDER [PORT]

A given port is taken or refused; without one the first free port from 8080 upwards is taken.
"""

import functools
import http.server
import signal
import sys

FIRST_PORT = 8080
PORTS_TRIED = 100


class Handler(http.server.SimpleHTTPRequestHandler):
    """Files with the types that a browser insists on, never kept, so that a new build shows at once."""

    extensions_map = http.server.SimpleHTTPRequestHandler.extensions_map | {
        ".css": "text/css",
        ".html": "text/html",
        ".js": "text/javascript",
        ".json": "application/json",
        ".svg": "image/svg+xml",
        ".wasm": "application/wasm",
        ".woff2": "font/woff2",
    }

    def end_headers(self):
        """Adds the one header that every answer carries."""
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, *_):
        """Says nothing, so that the address stays the last line."""


def listen(handler, ports):
    """A server on the first port of `ports` that is free, or None."""
    for port in ports:
        try:
            return http.server.ThreadingHTTPServer(("127.0.0.1", port), handler)
        except OSError:
            continue
    return None


def main():
    """Serves until it is told to stop."""
    folder = sys.argv[1]
    if len(sys.argv) > 2:
        ports = [int(sys.argv[2])]
    else:
        ports = range(FIRST_PORT, FIRST_PORT + PORTS_TRIED)
    server = listen(functools.partial(Handler, directory=folder), ports)
    if server is None:
        tried = f"Port {ports[0]} is" if len(ports) == 1 else f"The ports {ports[0]} to {ports[-1]} are"
        sys.exit(f"{tried} in use or not allowed. Name another with --port.")
    # Said for both: a shell starts a job in the background with Ctrl-C's signal ignored.
    for stop in (signal.SIGINT, signal.SIGTERM):
        signal.signal(stop, signal.default_int_handler)
    print(f"Headwright is at http://127.0.0.1:{server.server_address[1]}/", flush=True)
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        print("\nStopped.", flush=True)


if __name__ == "__main__":
    main()
