#!/usr/bin/env python3
"""Starts Spindlebook, or checks it. Needs nothing but Python 3.11 or later.

    python3 run.py demo        the demo shop in a window
    python3 run.py test        the whole check (python3 run.py test --help: parts of it)
    python3 run.py bench       how fast a large book is, against the budgets (--jobs 10000: a smaller one)
    python3 run.py WORDS...    the program's own command line; without words, the shop's own book

On Windows type  py  for  python3. The first start makes .venv beside this file from the lock file and takes
a minute or two; a stamp inside makes every later start instant until a lock file or the Python changes.
"""

import ctypes
import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

if sys.version_info < (3, 11):  # the rest of this file parses on 3.6, so that this sentence can be read
    sys.exit(
        f"Spindlebook needs Python 3.11 or later, and this is Python {sys.version.split()[0]}. "
        "Start run.py with a newer one."
    )

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
STAMPS = VENV / "spindlebook.stamps"
LOCKS = {"run": "requirements.lock", "test": "requirements-dev.lock"}

# What Qt asks of a Linux system, and the Debian package that has it.
ALWAYS = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
}
FOR_A_SCREEN = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-shape.so.0": "libxcb-shape0",
}
FOR_A_PRINTER = {"libcups.so.2": "libcups2"}  # without it Qt finds no printer; everything else works


class NotReady(Exception):
    """The set-up cannot go on; the text says why and what to do."""


def main(words):
    """Set up what these words need, run them, and return the exit code."""
    kind = "test" if words[:1] in (["test"], ["bench"]) else "run"
    try:
        set_up(kind)
    except NotReady as trouble:
        print(trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130
    if words[:1] == ["test"]:
        return run([str(PYTHON), str(ROOT / ".ci" / "check.py"), *words[1:]], dict(os.environ))
    # -P and PYTHONPATH: `app` is this folder's, whatever lies in the folder that the person stands in.
    before = os.environ.get("PYTHONPATH")
    path = str(ROOT) + (os.pathsep + before if before else "")
    module = ["tests.benchmarks.budgets", *words[1:]] if words[:1] == ["bench"] else ["app.start", *words]
    return run([str(PYTHON), "-P", "-m", *module], {**os.environ, "PYTHONPATH": path})


def run(command, environment):
    """Become this command where the system can do so, else wait for it; its exit code is ours."""
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "posix":
        os.execve(command[0], command, environment)
    try:
        return subprocess.call(command, env=environment)
    except KeyboardInterrupt:
        return 130


def set_up(kind):
    """Make .venv and fill it from the lock file, unless its stamp says that this was done."""
    wanted = stamp(kind)
    if PYTHON.exists() and wanted in read_stamps():
        return
    print(f"Setting up in {VENV} (once, a minute or two) ...", file=sys.stderr, flush=True)
    try:
        make_venv()
        require_qt_libraries()
        install(LOCKS[kind])
        # The test lock holds everything of the run lock.
        done = [stamp("run"), stamp("test")] if kind == "test" else [wanted]
        STAMPS.write_text("\n".join(done) + "\n", encoding="utf-8")
    except OSError as trouble:
        raise NotReady(f"Cannot set up in {VENV}: {trouble}.") from trouble
    print("Ready.", file=sys.stderr, flush=True)


def stamp(kind):
    """One line that changes when the Python, the folder or a lock file for this kind changes."""
    digest = hashlib.sha256(repr((sys.version, sys.platform, str(ROOT))).encode())
    for lock in ("requirements.lock", LOCKS[kind]):
        digest.update((ROOT / lock).read_bytes().replace(b"\r\n", b"\n"))
    return f"{kind} {digest.hexdigest()}"


def read_stamps():
    """The stamps of what was set up before; none when there are none."""
    try:
        return STAMPS.read_text(encoding="utf-8").splitlines()
    except OSError:
        return []


def make_venv():
    """A .venv of the Python that runs this file; one of another minor version or a broken one is replaced."""
    version = f"import sys; print(sys.version_info[:2] == {tuple(sys.version_info[:2])!r})"
    if output([str(PYTHON), "-c", version]).strip() == "True" and (has("pip", PYTHON) or has("pip")):
        return
    command = [sys.executable, "-m", "venv", "--clear"]
    if not has("ensurepip"):  # Debian keeps it in another package; pip of the host can fill a .venv as well
        if not has("pip"):
            raise NotReady(
                "This Python has neither ensurepip nor pip, so nothing can be installed. On Debian type:\n"
                f"    {as_root()}apt-get install python3-venv"
            )
        command.append("--without-pip")
    if subprocess.call([*command, str(VENV)], stdout=sys.stderr) != 0:
        raise NotReady(f"Python could not make {VENV}; its own words stand above.")


def install(lock):
    """Install exactly what the lock file names, checked by hash, compiled to bytecode; compile ours too."""
    if has("pip", PYTHON):
        pip = [str(PYTHON), "-m", "pip"]
    else:
        pip = [sys.executable, "-m", "pip", "--python", str(PYTHON)]
    options = ["-qq", "--disable-pip-version-check", "--no-input", "--require-hashes"]
    if subprocess.call([*pip, "install", *options, "-r", str(ROOT / lock)], stdout=sys.stderr) != 0:
        raise NotReady(
            f"The parts named in {lock} could not be installed; pip's own words stand above. Without a network "
            "the first start cannot work; if it was interrupted, start again."
        )
    folders = [str(ROOT / name) for name in ("app", "migrations", "demo_db") if (ROOT / name).is_dir()]
    subprocess.call([str(PYTHON), "-m", "compileall", "-q", *folders], stdout=sys.stderr)


def require_qt_libraries():
    """Install what Qt needs of a Linux system where we may, else say the one line to type."""
    if not sys.platform.startswith("linux"):
        return
    needed = {**ALWAYS, **FOR_A_SCREEN, **FOR_A_PRINTER}
    absent = missing(needed)
    if not absent:
        return
    packages = [needed[name] for name in absent]
    debian = shutil.which("apt-get") is not None
    if debian and os.geteuid() == 0:
        print("Installing what Qt needs:", *packages, file=sys.stderr, flush=True)
        quietly = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for words in (["update"], ["install", "-y", "--no-install-recommends", *packages]):
            apt = subprocess.run(
                ["apt-get", "-q", *words], env=quietly, capture_output=True, text=True, check=False
            )
            if apt.returncode != 0:
                print(apt.stderr, file=sys.stderr)
        absent = missing(needed)
    screen = os.environ.get("DISPLAY")
    if not any(name in ALWAYS or (screen and name in FOR_A_SCREEN) for name in absent):
        return  # all there, or only those absent that nobody here can miss
    if debian:
        line = f"Type this once, then start again:\n    {as_root()}apt-get install {' '.join(packages)}"
    else:
        line = "Install them with your system's package manager, then start again."
    raise NotReady(f"Qt needs system libraries that are not here: {', '.join(absent)}. {line}")


def missing(libraries):
    """Those of these libraries that the system's loader cannot open."""
    absent = []
    for name in libraries:
        try:
            ctypes.CDLL(name)
        except OSError:
            absent.append(name)
    return absent


def has(module, python=sys.executable):
    """Whether this Python can import the module, asked in a process of its own."""
    return output([str(python), "-c", f"import {module}; print(1)"]).strip() == "1"


def output(command):
    """What the command prints; nothing when it cannot run."""
    try:
        return subprocess.run(command, capture_output=True, text=True, check=False).stdout
    except OSError:
        return ""


def as_root():
    """What stands before a command that only root may run."""
    return "" if not hasattr(os, "geteuid") or os.geteuid() == 0 else "sudo "


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
