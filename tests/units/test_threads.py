"""Reading from many threads, from the first use on, and what an import costs those who read nothing."""

import subprocess
import sys
from textwrap import dedent

FIRST_USE = dedent(
    """
    import threading
    found, start = [], threading.Barrier(8)

    def use():
        start.wait()
        from repairlog.units import convert, read
        for kpa in range(200):
            gauge = read(f"{kpa} kPa", "pressure")
            found.append(convert(gauge, "psi").value == convert(read(f"{kpa}000 Pa", "pressure"), "psi").value)
            found.append(read("3/16 in", "hole").canonical == "4.7625 mm")

    threads = [threading.Thread(target=use) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    print(len(found), all(found))
    """
)


def run(source: str) -> str:
    done = subprocess.run([sys.executable, "-c", source], capture_output=True, text=True, timeout=60, check=False)
    return done.stdout.strip() + done.stderr


def test_eight_threads_that_read_first_at_once_all_read_right() -> None:
    assert run(FIRST_USE) == "3200 True"


def test_the_overview_of_commands_does_not_wait_for_units() -> None:
    assert run("import sys, repairlog.cli; repairlog.cli.overview(); print('pint' in sys.modules)") == "False"
