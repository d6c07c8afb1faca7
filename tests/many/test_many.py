"""A set too large for one machine, on an engine that exists: 20,000 designs over dask.distributed with four workers, of
which one is killed halfway, give the same bytes as one run."""

import os
import pathlib
import signal
import subprocess
import sys
import time

import pytest
from distributed import Client, LocalCluster, as_completed

HOME = pathlib.Path(__file__).resolve().parents[2]
sys.path[:0] = [str(HOME / "tests"), str(HOME / "tests/bench")]
import built  # noqa: E402
import generate  # noqa: E402

DESIGNS = 20_000
CHUNK = 200


def filtered(command, folder, names):
    """What a worker does: names in, a line a file out. It hangs on nothing of ours but the command."""
    done = subprocess.run(
        [command, "check", "--files-from", "-", "--format", "jsonl"],
        input="\n".join(names).encode(),
        cwd=folder,
        stdout=subprocess.PIPE,
        env={**os.environ, "RAYON_NUM_THREADS": "1"},
    )
    assert done.returncode in (0, 1), done.returncode
    return done.stdout


@pytest.fixture(scope="module")
def designs(tmp_path_factory):
    folder = tmp_path_factory.mktemp("many")
    bad = [path.read_text() for path in sorted((HOME / "tests/designs/bad").glob("*.finw"))]
    for i in range(DESIGNS):
        path = folder / f"d{i // 500:03d}" / f"f{i:05d}.finw"
        path.parent.mkdir(exist_ok=True)
        path.write_text(bad[i // 20 % len(bad)] if i % 20 == 0 else generate.design(i, 0))
    return folder


def test_four_workers_of_which_one_is_killed_give_the_bytes_of_one_run(designs):
    command = built.finwright()
    names = sorted(path.relative_to(designs).as_posix() for path in designs.rglob("*.finw"))
    chunks = [names[i : i + CHUNK] for i in range(0, len(names), CHUNK)]
    with LocalCluster(n_workers=4, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        with Client(cluster) as client:
            assert len(client.scheduler_info(n_workers=-1)["workers"]) == 4
            futures = client.map(filtered, [command] * len(chunks), [str(designs)] * len(chunks), chunks)
            lines, killed = {}, None
            for number, (future, result) in enumerate(as_completed(futures, with_results=True)):
                lines[future.key] = result
                if number == len(chunks) // 2:
                    killed = killed_worker(client)
            assert killed and len(lines) == len(chunks)
            assert killed not in client.run(os.getpid).values()
    whole = subprocess.run([command, "check", ".", "--format", "jsonl"], cwd=designs, stdout=subprocess.PIPE)
    put_together = subprocess.run(
        [command, "check", "--from", "-", "--format", "jsonl"],
        input=b"".join(lines.values()),
        cwd=designs,
        stdout=subprocess.PIPE,
    )
    assert put_together.stdout.count(b"\n") == DESIGNS + 1
    assert (put_together.stdout, put_together.returncode) == (whole.stdout, whole.returncode)


def killed_worker(client):
    """Kill a worker that is at work, as a machine that goes away."""
    for _ in range(100):
        busy = [address for address, tasks in client.processing().items() if tasks]
        pids = client.run(os.getpid, workers=busy[:1]) if busy else {}
        if pids:
            pid = next(iter(pids.values()))
            os.kill(pid, signal.SIGKILL)
            return pid
        time.sleep(0.05)
    return None
