"""`repairlog figure convert`, as the command is called."""

import json
import subprocess
import sys

import pytest

CAUTION = "Figures are aids. The operator's procedures, the maker's instructions, the law and qualified people govern."


def called(*words: str) -> tuple[int, str, str]:
    """Exit code, output and errors of the command."""
    done = subprocess.run(
        [sys.executable, "-m", "repairlog.cli", "figure", "convert", *words],
        capture_output=True,
        encoding="utf-8",
        env={"PYTHONUTF8": "1"},
        timeout=60,
        check=False,
    )
    return done.returncode, done.stdout, done.stderr


def test_a_pressure_is_given_in_another_unit_with_how_it_was_understood() -> None:
    told = "Understood as 7 in wc gauge; conventional inch of water, 249.08891 Pa; kept as 1.74362237 kPa gauge."
    assert called("7 in wc", "--to", "kPa") == (0, f"7 in wc = 1.74362237 kPa\n{told}\n{CAUTION}\n", "")


@pytest.mark.parametrize(
    ("words", "value", "rest"),
    [
        (("60 psi", "--to", "kPa"), "413.68543759", ("kPa", "413.685438 kPa gauge", "60 psi gauge")),
        # Source of 12.10076 psi at 5,280 ft: U.S. Standard Atmosphere 1976.
        (
            ("60 psi", "--to", "psia", "--elevation", "5280 ft"),
            "72.1007550451",
            ("psia", "497.117207 kPa absolute", "60 psi gauge"),
        ),
        (
            ("60 psi", "--to", "psia", "--atmosphere", "12.1 psi"),
            "72.1",
            ("psia", "497.112001 kPa absolute", "60 psi gauge"),
        ),
        (
            ("45 %LEL", "--to", "ppm", "--lel-basis", "4.4"),
            "19800",
            ("ppm", "1.98 %gas methane", "45 %LEL methane (LEL 4.4 %)"),
        ),
        (("-5 C", "--to", "F"), "23", ("F", "-5 degC", "-5 °C")),
        (("6 ft 3 in", "--to", "m", "--quantity", "distance"), "1.905", ("m", "1.905 m", "75 in")),
    ],
)
def test_the_answer_as_json_has_every_digit_of_the_decimal(
    words: tuple[str, ...], value: str, rest: tuple[str, str, str]
) -> None:
    unit, canonical, understood = rest
    told = f'"unit": "{unit}", "canonical": "{canonical}", "understood": "{understood}"'
    assert called(*words, "--json") == (0, f'{{"value": {value}, {told}}}\n', "")


def test_what_cannot_be_read_ends_2_and_says_why_and_what_to_write() -> None:
    message, hint = "The unit “psy” is not known here.", "Write one that is, such as: 45 psi."
    code, output, errors = called("45 psy", "--to", "kPa", "--json")
    assert (code, json.loads(output), errors, called("45 psy", "--to", "kPa")) == (
        2,
        {"error": {"code": "unit_unknown", "message": message, "hint": hint}},
        f"{message}\n{hint}\n",
        (2, "", f"{message}\n{hint}\n"),
    )


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("9**9**9 psi", "--to", "kPa"), "number_unreadable"),
        (("60 psi", "--to", "9**9**9"), "unit_unknown"),
        (("60 psi", "--to", "psia", "--atmosphere", "12.1 psig"), "gauge_not_absolute"),
        (("60 psi", "--to", "psia", "--elevation", "50000 ft"), "elevation_out_of_range"),
        (("20 %LEL", "--to", "ppm", "--lel-basis", "abc"), "lel_unknown"),
        (("250 ppm-m", "--to", "ppm"), "not_convertible"),
        (("7 in wc", "--to", "mm"), "unit_of_other_quantity"),
    ],
)
def test_every_word_of_the_command_that_cannot_be_understood_has_its_complaint(
    words: tuple[str, ...], code: str
) -> None:
    ended, output, _errors = called(*words, "--json")
    assert (ended, json.loads(output)["error"]["code"]) == (2, code)


def test_an_atmosphere_is_given_once() -> None:
    ended, output, errors = called("60 psi", "--to", "psia", "--atmosphere", "12 psi", "--elevation", "3 ft")
    assert (ended, output, errors.splitlines()[-1]) == (2, "", "Give --atmosphere or --elevation, not both.")


def test_the_group_imports_a_figure_only_when_it_is_called() -> None:
    look = (
        "import sys; from repairlog import cli; cli.run(['figure', '--help']);"
        " print([m for m in sys.modules if m.startswith('repairlog.cli.figure.') or m == 'pint'])"
    )
    answer = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert answer.stdout.endswith("\n[]\n")
