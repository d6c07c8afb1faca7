"""A mixed folder, made once for those that only read it."""

import pathlib
import sys

import pytest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import club  # noqa: E402


@pytest.fixture(scope="session")
def mixed(tmp_path_factory):
    return club.mixed(tmp_path_factory.mktemp("mixed") / "club")


def pytest_configure(config):
    config.addinivalue_line("markers", "long: left out of `tests/run --quick`")
