"""One writer at a time, in the order in which they asked; a lock is let go whatever happens while it is held."""

import fcntl
import os
import signal
import subprocess
import sys
import threading
import time

import pytest

from repairlog.records.store.fair_lock import FairLock
from tests.makers.together import PATIENCE


@pytest.fixture
def file(tmp_path):
    return tmp_path / "book.db.lock"


@pytest.fixture
def lock(file):
    return FairLock(file)


def is_free(file):
    """Whether another process could take the file lock now."""
    opened = os.open(file, os.O_RDWR | os.O_CREAT)
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    finally:
        os.close(opened)
    return True


def waiting(lock, count):
    deadline = time.monotonic() + PATIENCE
    while len(lock._queue) < count:
        assert time.monotonic() < deadline
        time.sleep(0.001)


def test_threads_are_served_in_the_order_in_which_they_asked(lock):
    served = []

    def serve(place):
        with lock.held():
            served.append(place)

    threads = [threading.Thread(target=serve, args=[place]) for place in range(20)]
    with lock.held():
        for place, thread in enumerate(threads):
            thread.start()
            waiting(lock, place + 2)
        assert served == []
    for thread in threads:
        thread.join(PATIENCE)
    assert served == list(range(20))


def test_only_one_thread_holds_it(lock):
    inside, most = [], []

    def hold():
        for _ in range(50):
            with lock.held():
                inside.append(1)
                most.append(len(inside))
                inside.pop()

    threads = [threading.Thread(target=hold) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(PATIENCE)
    assert (len(most), max(most)) == (200, 1)


def test_what_is_raised_while_it_is_held_lets_it_go(lock, file):
    def fail():
        with lock.held():
            assert not is_free(file)
            raise KeyError

    for _ in range(3):
        with pytest.raises(KeyError):
            fail()
        assert is_free(file)
    with lock.held():
        assert not is_free(file)


def test_whoever_gives_up_waiting_neither_lets_go_for_the_holder_nor_bars_those_behind(lock, file):
    """A signal ends the waiting of the main thread, as Ctrl-C would, while another thread holds the lock."""
    held, done, after = threading.Event(), threading.Event(), threading.Event()

    def hold():
        with lock.held():
            held.set()
            done.wait(PATIENCE)

    def come_later():
        with lock.held():
            after.set()

    def give_up(_signal, _frame):
        raise TimeoutError

    holder, later = threading.Thread(target=hold), threading.Thread(target=come_later)
    holder.start()
    held.wait(PATIENCE)
    before = signal.signal(signal.SIGALRM, give_up)
    try:
        signal.setitimer(signal.ITIMER_REAL, 0.05)
        with pytest.raises(TimeoutError), lock.held():
            pytest.fail("the lock was held by another")
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
    assert not is_free(file)
    later.start()
    waiting(lock, 2)
    assert not after.is_set()
    done.set()
    for thread in (holder, later):
        thread.join(PATIENCE)
    assert (after.is_set(), is_free(file)) == (True, True)


HOLDER = """
import sys
from pathlib import Path
from repairlog.records.store.fair_lock import FairLock

with FairLock(Path(sys.argv[1])).held():
    print("held", flush=True)
    sys.stdin.read()
"""


@pytest.mark.parametrize("how", ["lets go", "is killed"])
def test_another_process_waits_until_the_holder_is_done_or_gone(lock, file, how):
    got = threading.Event()

    def take():
        with lock.held():
            got.set()

    holder = subprocess.Popen([sys.executable, "-c", HOLDER, file], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    assert holder.stdout.readline() == b"held\n"
    taker = threading.Thread(target=take)
    taker.start()
    waiting(lock, 1)
    assert not got.wait(0.2)
    if how == "is killed":
        holder.kill()
    holder.communicate()
    taker.join(PATIENCE)
    assert got.is_set()


def test_two_stores_of_one_process_on_one_file_wait_for_each_other(file):
    first, second = FairLock(file), FairLock(file)
    got = threading.Event()

    def take():
        with second.held():
            got.set()

    taker = threading.Thread(target=take)
    with first.held():
        taker.start()
        assert not got.wait(0.1)
    taker.join(PATIENCE)
    assert got.is_set()


def test_waiting_for_a_thread_that_never_ends_is_told_as_such(file):
    impatient = FairLock(file, patience=0.1)
    held, done = threading.Event(), threading.Event()

    def hold():
        with impatient.held():
            held.set()
            done.wait(PATIENCE)

    holder = threading.Thread(target=hold)
    holder.start()
    held.wait(PATIENCE)
    with pytest.raises(TimeoutError, match="in this process"), impatient.held():
        pytest.fail("the lock was held by another")
    done.set()
    holder.join(PATIENCE)
    with impatient.held():
        assert not is_free(file)


def test_waiting_for_a_process_that_never_ends_is_told_as_such_and_takes_nothing_later(file):
    impatient = FairLock(file, patience=0.1)
    holder = subprocess.Popen([sys.executable, "-c", HOLDER, file], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    assert holder.stdout.readline() == b"held\n"
    for _ in range(3):
        with pytest.raises(TimeoutError, match="another process"), impatient.held():
            pytest.fail("the lock was held by another")
    holder.communicate()
    with impatient.held():
        assert not is_free(file)
    deadline = time.monotonic() + PATIENCE
    while not is_free(file):  # those that gave up were in the queue still, and pass the lock on as it reaches them
        assert time.monotonic() < deadline
        time.sleep(0.001)
