"""What the runner leaves out of a quick run."""


def pytest_configure(config):
    config.addinivalue_line("markers", "long: left out of `tests/run --quick`")
