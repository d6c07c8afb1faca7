"""Which files are looked at: folders, lists, links, what is left out, and what has changed since a revision."""

import os
import subprocess

import club
import pytest


def looked_at(folder, *arguments, **more):
    """The files that get a verdict, and what is said on standard error."""
    done = club.finwright(folder, "check", "--format", "line", *arguments, **more)
    found = (": error ", ": warning ", ": note ")
    verdicts = [line for line in done.stdout.splitlines() if not any(level in line for level in found)]
    return [line.split(": ")[0] for line in verdicts], done.stderr


def designs(folder, *names):
    for name in names:
        club.copy("good/pond_wren.finw", folder / name)


def test_ignore_files_are_honoured_with_and_without_a_repository(tmp_path):
    designs(tmp_path, "a.finw", "drafts/b.finw", "old/c.finw", "old/keep.finw", "deep/x/d_old.finw", ".hidden/e.finw")
    (tmp_path / ".gitignore").write_text("drafts/\n")
    (tmp_path / ".finwrightignore").write_text("old/*\n!old/keep.finw\n*_old.finw\n")
    assert looked_at(tmp_path, ".") == (["a.finw", "old/keep.finw"], "")
    # What is named by itself is looked at.
    assert looked_at(tmp_path, ".", "drafts/b.finw")[0] == ["a.finw", "drafts/b.finw", "old/keep.finw"]


def test_what_is_excluded_is_left_out_however_it_was_named(tmp_path):
    designs(tmp_path, "a.finw", "drafts/b.finw", "x/drafts/c.finw", "x/a_old.finw")
    assert looked_at(tmp_path, ".", "drafts/b.finw", "--exclude", "drafts", "--exclude", "*_old.finw")[0] == ["a.finw"]
    assert looked_at(tmp_path, ".", "--exclude", "x/**")[0] == ["a.finw", "drafts/b.finw"]
    done = club.finwright(tmp_path, "check", ".", "--exclude", "a[")
    assert done.returncode == 2 and done.stderr.startswith("finwright: --exclude a[: ")


def test_capitals_count_and_other_endings_do_not(tmp_path):
    designs(tmp_path, "a.FINW", "b.Finw", "c.finw~", "d.txt", "finw")
    assert looked_at(tmp_path, ".")[0] == ["a.FINW", "b.Finw"]


def test_a_list_comes_from_a_file_or_by_the_pipe(tmp_path):
    designs(tmp_path, "a.finw", "b c.finw", "x/d.finw", "two\nlines.finw")
    (tmp_path / "list").write_text("b c.finw\n\nx\n")
    assert looked_at(tmp_path, "--files-from", "list", "a.finw")[0] == ["a.finw", "b c.finw", "x/d.finw"]
    assert looked_at(tmp_path, "--files-from", "-", input="a.finw\r\n./a.finw\n")[0] == ["a.finw"]
    between_zeros = "two\nlines.finw\0a.finw\0"
    assert looked_at(tmp_path, "--files-from", "-", input=between_zeros)[0] == ["a.finw", "two\ufffdlines.finw"]
    assert looked_at(tmp_path, "--files-from", "-", input="") == ([], "")
    for asked in (["--files-from", "none"], ["--files-from", "-", "-"], []):
        done = club.finwright(tmp_path, "check", *asked, input="")
        assert (done.returncode, done.stdout) == (2, "") and done.stderr.count("\n") == 1, done.stderr


def test_what_comes_by_the_pipe_may_have_a_name(tmp_path):
    text = 'use "kit.txt"\n' + (club.DESIGNS / "good/pond_wren.finw").read_text()
    (tmp_path / "class").mkdir()
    (tmp_path / "class" / "kit.txt").write_text("material oak { density: 700 kg/m3 }\n")
    (tmp_path / "class" / "finwright.toml").write_text("profile = 3\n")
    done = club.finwright(tmp_path, "check", "-", "--stdin-filename", "class/new.finw", "--format", "line", input=text)
    assert "class/new.finw: not as it is: settings/not-understood\nclass/finwright.toml:1:1: error" in done.stdout
    assert "can't be used" not in done.stdout
    named = ["--stdin-filename", "class/new.finw"]
    done = club.finwright(tmp_path, "fmt", "-", "--check", *named, input=text + "  let x=1\n")
    assert (done.returncode, done.stdout) == (1, "class/new.finw\n")


def test_a_link_is_followed_once(tmp_path):
    home = tmp_path / "home"
    designs(home, "a.finw", "x/b.finw")
    (home / "again.finw").symlink_to("a.finw")
    (home / "x" / "up").symlink_to("..")
    (home / "y").symlink_to("x")
    assert looked_at(home, ".") == (["a.finw", "x/b.finw"], "")
    # A link that is asked for alone is looked at under its own name.
    assert looked_at(home, "again.finw") == (["again.finw"], "")
    assert looked_at(home, "again.finw", "a.finw") == (["a.finw"], "")


def test_links_that_lead_nowhere_or_out_are_a_line_each(tmp_path):
    home, other = tmp_path / "home", tmp_path / "other"
    designs(home, "a.finw")
    designs(other, "secret.finw", "deep/c.finw")
    (home / "gone.finw").symlink_to("nowhere.finw")
    (home / "notes.txt").symlink_to("nowhere.txt")
    (home / "out.finw").symlink_to(other / "secret.finw")
    (home / "folder").symlink_to(other / "deep")
    (home / "root").symlink_to("/")
    done = club.finwright(home, "check", ".", "--format", "line")
    assert done.returncode == 2 and done.stdout == "a.finw: meets the checks\n"
    assert done.stderr.splitlines() == [
        f"finwright: folder: it is a link out of this folder, to {other / 'deep'}, and isn't followed",
        "finwright: gone.finw: it is a link to nowhere.finw, which isn't there",
        f"finwright: out.finw: it is a link out of this folder, to {other / 'secret.finw'}, and isn't followed",
        "finwright: root: it is a link out of this folder, to /, and isn't followed",
    ]
    # What somebody names is looked at.
    assert looked_at(home, "out.finw")[0] == ["out.finw"]


def test_fmt_never_writes_through_a_link(tmp_path):
    loose = "tube body{\nlength:3mm\n}\n"
    (tmp_path / "a.txt").write_text(loose)
    (tmp_path / "link.finw").symlink_to("a.txt")
    done = club.finwright(tmp_path, "fmt", ".")
    assert (done.returncode, done.stdout) == (0, "link.finw is a link to a.txt: format that file\n")
    assert (tmp_path / "a.txt").read_text() == loose and (tmp_path / "link.finw").is_symlink()


def test_fmt_writes_by_rename(tmp_path):
    (tmp_path / "a.finw").write_text("tube body{\nlength:3mm\n}\n")
    os.link(tmp_path / "a.finw", tmp_path / "other_name")
    before = (tmp_path / "a.finw").stat().st_ino
    assert club.finwright(tmp_path, "fmt", "a.finw").returncode == 0
    assert (tmp_path / "a.finw").stat().st_ino != before
    assert (tmp_path / "other_name").read_text().startswith("tube body{")
    assert sorted(os.listdir(tmp_path)) == ["a.finw", "other_name"]


# Files that have changed since a revision.


def git(folder, *arguments):
    names = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    for who in ("AUTHOR", "COMMITTER"):
        names |= {f"GIT_{who}_NAME": "somebody", f"GIT_{who}_EMAIL": "somebody@example.org"}
    subprocess.run(["git", *arguments], cwd=folder, env={**os.environ, **names}, check=True, capture_output=True)


@pytest.fixture
def repository(tmp_path):
    folder = tmp_path / "club"
    for name in ("club/swift.finw", "club/shared/materials.finw", "club/shared/pads.finw", "good/pond_wren.finw"):
        club.copy(f"projects/{name}" if name.startswith("club") else name, folder / name)
    designs(folder, "other/a.finw", "other/b.finw")
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "first")
    return folder


def append(path, text="\n# a word more\n"):
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "a") as file:
        file.write(text)


def test_only_what_has_changed_is_looked_at(repository):
    assert looked_at(repository, ".", "--since", "HEAD") == ([], "")
    append(repository / "other/a.finw")
    designs(repository, "new/c.finw")
    assert looked_at(repository, "--since", "HEAD")[0] == ["new/c.finw", "other/a.finw"]
    git(repository, "add", "-A")
    assert looked_at(repository, "--since", "HEAD")[0] == ["new/c.finw", "other/a.finw"]
    git(repository, "commit", "-q", "-m", "second")
    assert looked_at(repository, "--since", "HEAD")[0] == []
    assert looked_at(repository, "--since", "HEAD~1")[0] == ["new/c.finw", "other/a.finw"]
    # From a folder below, with names from there, and only what was asked for.
    assert looked_at(repository / "other", "--since", "HEAD~1")[0] == ["a.finw"]


def test_designs_that_use_a_changed_file_are_looked_at(repository):
    append(repository / "club/shared/pads.finw")
    assert looked_at(repository, ".", "--since", "HEAD")[0] == ["club/shared/pads.finw", "club/swift.finw"]
    git(repository, "checkout", "-q", ".")
    (repository / "club/shared/materials.finw").unlink()
    assert "club/swift.finw" in looked_at(repository, ".", "--since", "HEAD")[0]


def test_a_file_of_numbers_that_a_design_reads_counts_too(repository):
    text = (repository / "other/a.finw").read_text()
    start = text.index("curve: [")
    end = text.index("]", start) + 1
    (repository / "other/thrust.csv").write_text("time (s),thrust (N)\n0.1,10\n0.3,3\n0.5,0\n")
    (repository / "other/a.finw").write_text(text[:start] + 'curve: file "thrust.csv"' + text[end:])
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "a curve in a file")
    append(repository / "other/thrust.csv", "0.6,0\n")
    assert looked_at(repository, ".", "--since", "HEAD")[0] == ["other/a.finw"]


def test_a_changed_finwright_toml_touches_the_designs_below_it(repository):
    append(repository / "other/finwright.toml", 'profile = "beginner"\n')
    assert looked_at(repository, ".", "--since", "HEAD")[0] == ["other/a.finw", "other/b.finw"]
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "settings")
    (repository / "other/finwright.toml").unlink()
    assert looked_at(repository, ".", "--since", "HEAD")[0] == ["other/a.finw", "other/b.finw"]


def test_without_git_or_its_revision_that_is_said(repository, tmp_path):
    for arguments, folder, said in (
        (["--since", "v9"], repository, "git knows no revision v9 here"),
        (["--since", "--output=x"], repository, "git knows no revision --output=x here"),
        (["--since", "HEAD"], tmp_path, "--since needs a git repository around this folder: not a git repository"),
    ):
        done = club.finwright(folder, "check", *[f"{arguments[0]}={arguments[1]}"])
        assert (done.returncode, done.stdout) == (2, "") and said in done.stderr and done.stderr.count("\n") == 1
    done = club.finwright(repository, "check", "--since", "HEAD", env={"PATH": str(tmp_path)})
    assert done.returncode == 2 and "the command git can't be started" in done.stderr
