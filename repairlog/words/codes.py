"""What stands on a screen for the codes of entries: a word for each, in the reader's language."""

from __future__ import annotations

from functools import cache

from repairlog.words import _


def word(code: str) -> str:
    """The word for a code of any field; KeyError for a text that is no code of ours."""
    return _words()[code]


@cache  # a list says some hundred of them; where there are several languages, one each
def _words() -> dict[str, str]:
    return {
        **_of_leaks(),
        **_of_pipe(),
        **_of_visits(),
        **_of_repairs(),
        **_of_work(),
        **_of_digs(),
        **_of_ties(),
        **_of_calls(),
        **_of_first_hour(),
        **_of_operators(),
        **_of_the_books(),
    }


def _of_leaks() -> dict[str, str]:
    return {
        "odor_call": _("Call about an odor"),
        "survey": _("Leak survey"),
        "patrol": _("Patrol"),
        "excavation": _("Excavation"),
        "other_call": _("Another call"),
        "meter_work": _("Work at a meter"),
        "as_found": _("As found"),
        "listed": _("On an old list"),
        "repaired": _("Repaired"),
        "replaced": _("Pipe replaced"),
        "retired": _("Pipe retired: cut and sealed"),
        "adjusted": _("Adjusted or lubricated"),
        "no_reading": _("No reading any more"),
        "customers": _("The customer's piping"),
        "other_gas": _("Another gas"),
        "joined": _("Joined to another number"),
        "opened_in_error": _("Opened in error"),
        "handed_over": _("Handed to another operator"),
        "on_or_before": _("That day or before"),
        "paper": _("Paper written at the time"),
    }


def _of_pipe() -> dict[str, str]:
    return {
        "main": _("Main"),
        "service": _("Service"),
        "meter_set": _("Meter set"),
        "customer_piping": _("Customer's piping"),
        "station": _("Station"),
        "transmission_line": _("Transmission line"),
        "before_1940": _("Before 1940"),
        "1940s": _("1940 to 1949"),
        "1950s": _("1950 to 1959"),
        "1960s": _("1960 to 1969"),
        "1970s": _("1970 to 1979"),
        "1980s": _("1980 to 1989"),
        "1990s": _("1990 to 1999"),
        "2000s": _("2000 to 2009"),
        "2010s": _("2010 to 2019"),
        "2020s": _("2020 to 2029"),
        "steel": _("Steel"),
        "cast_iron": _("Cast iron"),
        "ductile_iron": _("Ductile iron"),
        "wrought_iron": _("Wrought iron"),
        "copper": _("Copper"),
        "plastic_pe": _("Plastic, polyethylene"),
        "plastic_other": _("Plastic, other"),
        "protected": _("Cathodically protected"),
        "unprotected": _("Not protected"),
        "hole": _("Hole"),
        "crack": _("Crack"),
        "joint": _("Joint"),
        "thread": _("Thread"),
        "seal": _("Seal"),
        "other": _("Other"),
        "seen_in_the_dig": _("Seen in the dig"),
        "cut_out_and_measured": _("Cut out and measured"),
        "measured_in_place": _("Measured in place"),
        "from_records": _("From records"),
        "from_the_laboratory": _("From the laboratory"),
    }


def _of_visits() -> dict[str, str]:
    return {
        "first_investigation": _("First investigation"),
        "re_evaluation": _("Re-evaluation"),
        "follow_up_inspection": _("Follow-up inspection"),
        "watch_reading": _("Watch reading"),
        "after_repair": _("Left after the repair"),
        "looked": _("Looked"),
        "no_access": _("No access"),
        "dry": _("Dry"),
        "wet": _("Wet"),
        "frozen": _("Frozen"),
        "snow": _("Snow"),
        "paved": _("Paved"),
        "wall_to_wall": _("Paved from wall to wall"),
        "some_paving": _("Paved in part"),
        "unpaved": _("Not paved"),
        "class_1": _("Class 1"),
        "class_2": _("Class 2"),
        "class_3": _("Class 3"),
        "class_4": _("Class 4"),
        "yes": _("Yes"),
        "no": _("No"),
        "bar_hole": _("Bar hole"),
        "building": _("Building"),
        "manhole": _("Manhole"),
        "vault": _("Vault"),
        "catch_basin": _("Catch basin"),
        "valve_box": _("Valve box"),
        "surface": _("Surface"),
        "outside_wall": _("Outside wall"),
        "inside": _("Inside a building"),
        "tunnel": _("Tunnel"),
        "confined_space": _("Confined space"),
        "small_substructure": _("Small substructure"),
        "sidewalk": _("Sidewalk"),
        "street": _("Street"),
        "gas": _("Gas"),
        "electric": _("Electric"),
        "telephone": _("Telephone"),
        "sewer": _("Sewer"),
        "water": _("Water"),
        "customer": _("Customer"),
        "unknown": _("Not known"),
        "methane": _("Methane"),
        "carbon_monoxide": _("Carbon monoxide"),
        "propane": _("Propane"),
        "hydrogen": _("Hydrogen"),
        "sustained": _("Sustained"),
        "peak": _("Peak"),
    }


def _of_repairs() -> dict[str, str]:
    return {
        "permanent": _("Permanent"),
        "temporary": _("Temporary"),
        "corrosion_failure": _("Corrosion failure"),
        "natural_force_damage": _("Natural force damage"),
        "excavation_damage": _("Excavation damage"),
        "other_outside_force_damage": _("Other outside force damage"),
        "pipe_weld_or_joint_failure": _("Pipe, weld or joint failure"),
        "equipment_failure": _("Equipment failure"),
        "incorrect_operation": _("Incorrect operation"),
        "other_cause": _("Other cause"),
        "live": _("Kept on"),
        "off": _("Off"),
        "tight": _("Tight"),
        "not_tight": _("Not tight"),
        "not_tested": _("Not tested"),
        "cannot_say": _("Cannot say"),
        "soap": _("Soap test"),
        "pressure_hold": _("Pressure held"),
        "gas_reading": _("Gas reading"),
        "air": _("Air"),
        "nitrogen": _("Nitrogen"),
        "not_stopped": _("Not stopped"),
        "line_valve": _("Valve closed"),
        "squeeze_off": _("Squeezed off"),
        "stopper": _("Line stopper"),
        "plug": _("Plug"),
        "bag": _("Bag"),
        "accepted": _("Accepted"),
        "returned": _("Returned"),
    }


def _of_work() -> dict[str, str]:
    return {
        "approved": _("Approved"),
        "not_approved": _("Not approved"),
        "repair": _("Repair"),
        "permanent_repair": _("Permanent repair"),
        "restoration": _("Restoration of the surface"),
        "other_work": _("Other work"),
        "done": _("Done"),
        "taken_back": _("Taken back"),
        "permit": _("A permit"),
        "parts": _("Parts"),
        "weather": _("Weather"),
        "other_operator": _("Another operator"),
        "access": _("Access"),
        "locating": _("Lines to be located"),
        "project": _("A replacement project"),
    }


def _of_digs() -> dict[str, str]:
    return {
        "grass": _("Grass"),
        "bare_soil": _("Bare soil"),
        "gravel": _("Gravel"),
        "asphalt": _("Asphalt"),
        "concrete": _("Concrete"),
        "brick": _("Brick or stone"),
        "source": _("The source of the leak"),
        "nothing": _("Nothing: a dry hole"),
        "other_pipe": _("Another pipe"),
        "sand": _("Sand"),
        "loam": _("Loam"),
        "clay": _("Clay"),
        "rock": _("Rock"),
        "fill": _("Fill"),
        "standing_water": _("Water standing in it"),
        "bare": _("Bare"),
        "coated": _("Coated"),
        "sound": _("Sound"),
        "damaged": _("Damaged"),
        "loose": _("Loose"),
        "missing": _("Missing"),
        "none": _("No sign of any"),
        "light": _("Light, on the surface"),
        "pitting": _("Pitting"),
        "graphitized_in_spots": _("Graphitized in spots"),
        "graphitized_all_over": _("Graphitized all over"),
        "general": _("General"),
        "whole": _("Whole"),
        "broken": _("Broken"),
        "mended": _("Joined again"),
    }


def _of_ties() -> dict[str, str]:
    return {
        "same_source_as": _("Same source as"),
        "split_from": _("Split from"),
        "came_back_after": _("Came back after"),
        "same_dig": _("Same dig as"),
        "waits_on": _("Waits on"),
        "main_segment": _("Part of a main"),
        "structure": _("Structure"),
    }


def _of_calls() -> dict[str, str]:
    return {
        "odor": _("Odor of gas"),
        "fire": _("Fire or explosion"),
        "dig_in": _("Dig-in"),
        "passer_by": _("Passer-by or neighbor"),
        "nine_one_one": _("9-1-1"),
        "fire_department": _("Fire department"),
        "police": _("Police"),
        "excavator": _("Excavator"),
        "other_utility": _("Another utility"),
        "own_people": _("Our own people"),
        "inside": _("Inside"),
        "outside": _("Outside"),
        "inside_and_outside": _("Inside and outside"),
        "nothing_found": _("Nothing found"),
        "adjusted_on_the_spot": _("Adjusted on the spot"),
        "operators_leak": _("Our leak"),
        "another_operators": _("Another operator's gas"),
        "cancelled": _("Cancelled"),
        "same_call": _("The same as an earlier call"),
        "shut_off_and_tagged": _("Shut off and tagged"),
        "shut_off": _("Shut off"),
        "disconnected": _("Disconnected and capped"),
        "not_made_safe": _("Not made safe"),
    }


def _of_first_hour() -> dict[str, str]:
    return {
        "on_site": _("On site"),
        "first_gas": _("First gas"),
        "people_out": _("People out"),
        "street_closed": _("Street closed"),
        "gas_under_control": _("Gas under control"),
        "area_made_safe": _("Made safe"),
        "people_back": _("People back"),
        "left_site": _("Left the site"),
        "followed": _("Followed"),
        "followed_in_part": _("Followed in part"),
        "not_followed": _("Not followed"),
        "meter_valve": _("Meter valve"),
        "curb_valve": _("Curb valve"),
        "main_valve": _("Main valve"),
        "squeeze_off": _("Squeeze-off"),
        "stopper": _("Stopper"),
        "temporary_clamp": _("Clamp, temporary"),
        "venting": _("Venting"),
        "electric_company": _("Electric company"),
        "gas_control": _("Gas control"),
        "owner": _("Owner"),
        "city": _("City or county"),
        "state_commission": _("State commission"),
        "federal_response_center": _("National Response Center"),
        "radio": _("Radio"),
        "in_person": _("In person"),
        "email": _("E-mail"),
        "web_form": _("Web form"),
        "reportable": _("To be reported"),
        "not_reportable": _("Not to be reported"),
    }


def _of_operators() -> dict[str, str]:
    return {
        "crew": _("Crew"),
        "dispatcher": _("Dispatcher"),
        "manager": _("Manager"),
        "storekeeper": _("Storekeeper"),
        "inspector": _("Inspector"),
        "supervisor": _("Supervisor"),
        "officer": _("Compliance officer"),
        "stockroom": _("Stockroom"),
        "yard": _("Yard"),
        "truck": _("Truck"),
        "administrator": _("Administrator"),
        "5.0": _("5.0 % methane"),
        "4.4": _("4.4 % methane"),
    }


def _of_the_books() -> dict[str, str]:
    return {
        "written_examination": _("Written examination"),
        "oral_examination": _("Oral examination"),
        "work_performance_history": _("Work performance history review"),
        "observation": _("Observation on the job"),
        "on_the_job_training": _("On-the-job training"),
        "simulation": _("Simulation"),
        "other_assessment": _("Another assessment"),
        "suspended": _("Suspended"),
        "withdrawn": _("Withdrawn"),
        "in_tolerance": _("In tolerance"),
        "adjusted_to": _("Adjusted, in tolerance since"),
        "out_of_tolerance": _("Out of tolerance"),
        "good": _("Good"),
        "not_good": _("Not good"),
        "contractor": _("Contractor"),
        "laboratory": _("Laboratory"),
        "mutual_aid": _("Mutual aid from another operator"),
    }
