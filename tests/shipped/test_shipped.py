"""What lies beside the code is found; tests/house/test_wheel.py asks the same of an installed wheel."""

import pytest

from repairlog import shipped


def test_the_settings_example_is_in_the_config_folder():
    assert (shipped.config() / "settings.example.toml").is_file()


def test_the_migrations_are_where_alembic_looks_for_them():
    assert (shipped.migrations() / "script.py.mako").is_file()


def test_the_folder_inside_the_package_is_taken_before_the_checkout_s(tmp_path):
    inside, outside = tmp_path / "package", tmp_path / "checkout"
    for place in (inside, outside):
        (place / "config").mkdir(parents=True)
    assert shipped.folder("config", among=(inside, outside)) == inside / "config"
    (inside / "config").rmdir()
    assert shipped.folder("config", among=(inside, outside)) == outside / "config"


def test_a_folder_that_is_nowhere_is_told_with_both_places_and_what_to_do(tmp_path):
    with pytest.raises(FileNotFoundError) as told:
        shipped.folder("config", among=(tmp_path / "a", tmp_path / "b"))
    neither = f"neither {tmp_path / 'a' / 'config'} nor {tmp_path / 'b' / 'config'} is a folder"
    assert str(told.value) == f"config/ is missing: {neither}; install repairlog again"
