"""Regulation, synchrony, recruitment, quorum, sharing of work, spare parts, copying, search and traces.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

from math import comb

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._inputs import at_least, not_negative, positive, power
from analog.scale.functions._molecular_constants import BOLTZMANN_CONSTANT
from analog.scale.registry import computes


@computes("remaining-error")
def remaining_error(disturbance: float, loop_gain: float) -> float:
    """d/(1 + K), in the unit of the disturbance. Åström and Murray 2008."""
    not_negative(loop_gain=loop_gain)
    return disturbance / (1 + loop_gain)


@computes("gain-times-delay")
def gain_times_delay(loop_gain: float, loop_delay: float, time_constant: float) -> float:
    """K t_d/τ, pure number; pure number, s, s.

    A loop of one lag and a delay swings for good near π/2 when K is high.
    """
    positive(time_constant=time_constant)
    not_negative(loop_gain=loop_gain, loop_delay=loop_delay)
    return loop_gain * loop_delay / time_constant


@computes("coupling-over-critical")
def coupling_over_critical(coupling: float, frequency_spread: float) -> float:
    """K/(2γ), pure number; 1/s, 1/s (half width of a Lorentzian spread). Kuramoto 1984; Strogatz 2000."""
    positive(frequency_spread=frequency_spread)
    not_negative(coupling=coupling)
    return coupling / (2 * frequency_spread)


@computes("synchrony")
def synchrony(coupling: float, frequency_spread: float) -> float:
    """√(1 - 2γ/K), 0 at and below the critical coupling; 1/s, 1/s. Kuramoto 1984; Strogatz 2000."""
    positive(coupling=coupling)
    not_negative(frequency_spread=frequency_spread)
    result: float = numpy.sqrt(numpy.maximum(0.0, 1 - 2 * frequency_spread / coupling))
    return result


@computes("branch-choice")
def branch_choice(own_marks: float, other_marks: float, mark_threshold: float, choice_exponent: float) -> float:
    """(k + A)^n/((k + A)^n + (k + B)^n), 0 to 1; numbers of passages. Deneubourg and others 1990."""
    positive(mark_threshold=mark_threshold, choice_exponent=choice_exponent)
    not_negative(own_marks=own_marks, other_marks=other_marks)
    return 1 / (1 + power((mark_threshold + other_marks) / (mark_threshold + own_marks), choice_exponent))


@computes("recruitment-number")
def recruitment_number(
    visitor_rate: float, mark_decay_rate: float, mark_threshold: float, choice_exponent: float
) -> float:
    """(n - 1) φ/(2 ν k), pure number; 1/s, 1/s, passages, pure number.

    For n = 2 the limit of Nicolis and Deneubourg 1999.

    Two equal branches hold φ/(2ν) marks each; a small surplus grows when n φ/(2(k + φ/(2ν))) exceeds the loss ν.
    """
    positive(mark_decay_rate=mark_decay_rate, mark_threshold=mark_threshold)
    not_negative(visitor_rate=visitor_rate, choice_exponent=choice_exponent)
    return (choice_exponent - 1) * visitor_rate / (2 * mark_decay_rate * mark_threshold)


@computes("quorum-response")
def quorum_response(number_present: float, quorum: float, steepness: float) -> float:
    """x^k/(x^k + T^k), 0 to 1; numbers of members. Sumpter and Pratt 2009."""
    positive(quorum=quorum, steepness=steepness)
    not_negative(number_present=number_present)
    raised = power(number_present / quorum, steepness)
    return raised / (1 + raised)


@computes("task-response")
def task_response(stimulus: float, response_threshold: float) -> float:
    """s²/(s² + θ²), 0 to 1; both in one unit. Bonabeau, Theraulaz and Deneubourg 1996."""
    positive(response_threshold=response_threshold)
    not_negative(stimulus=stimulus)
    return stimulus**2 / (stimulus**2 + response_threshold**2)


@computes("whole-reliability")
def whole_reliability(part_reliability: float, part_count: float, parts_needed: float) -> float:
    """Chance that at least m of n independent parts work, 0 to 1; chance, whole numbers. Barlow and Proschan 1975."""
    between(0, 1, part_reliability=part_reliability)
    not_negative(part_count=part_count, parts_needed=parts_needed)
    if part_count != int(part_count) or parts_needed != int(parts_needed):
        raise ValueError(f"expected whole numbers of parts, found {part_count} and {parts_needed}")
    count, needed = int(part_count), int(parts_needed)
    fewer = range(needed, count + 1)
    return float(sum(comb(count, i) * part_reliability**i * (1 - part_reliability) ** (count - i) for i in fewer))


@computes("expected-over-needed")
def expected_over_needed(part_count: float, part_reliability: float, parts_needed: float) -> float:
    """n p/m, pure number."""
    positive(parts_needed=parts_needed)
    not_negative(part_count=part_count)
    between(0, 1, part_reliability=part_reliability)
    return part_count * part_reliability / parts_needed


@computes("last-error")
def last_error(first_error: float, escape_share: float, check_count: float) -> float:
    """e₀ q^n, 0 to 1: errors left after n independent checks; shares, number. Hopfield 1974."""
    between(0, 1, first_error=first_error, escape_share=escape_share)
    not_negative(check_count=check_count)
    return first_error * power(escape_share, check_count)


@computes("errors-per-copy")
def errors_per_copy(copy_length: float, first_error: float, escape_share: float, check_count: float) -> float:
    """L e₀ q^n: errors expected in a whole copy; units copied, shares, number. Eigen 1971."""
    not_negative(copy_length=copy_length)
    return copy_length * last_error(first_error, escape_share, check_count)


@computes("search-diffusivity")
def search_diffusivity(run_speed: float, run_time: float, mean_turn_cosine: float) -> float:
    """v² τ/(3 (1 - α)) in m²/s, in space, run times spread exponentially about τ; m/s, s, -1 to 1. Berg 1993."""
    not_negative(run_speed=run_speed, run_time=run_time)
    between(-1, 1, mean_turn_cosine=mean_turn_cosine)
    if not numpy.all(mean_turn_cosine < 1):
        raise ValueError(f"expected a mean turn cosine below 1 (else it never turns), found {mean_turn_cosine}")
    return run_speed**2 * run_time / (3 * (1 - mean_turn_cosine))


@computes("turning-period")
def turning_period(shear_rate: float, aspect_ratio: float) -> float:
    """(2π/γ̇)(p + 1/p) in s: full turn of a long body in shear; 1/s, length over thickness. Jeffery 1922."""
    positive(shear_rate=shear_rate, aspect_ratio=aspect_ratio)
    return 2 * numpy.pi / shear_rate * (aspect_ratio + 1 / aspect_ratio)


@computes("shear-over-tumbling")
def shear_over_tumbling(shear_rate: float, viscosity: float, body_diameter: float, temperature: float) -> float:
    """γ̇ π μ d³/(k T), pure number: shear rate over the rotary diffusivity of a sphere; 1/s, Pa·s, m, K.

    Larson 1999.
    """
    positive(temperature=temperature)
    not_negative(shear_rate=shear_rate, viscosity=viscosity, body_diameter=body_diameter)
    return shear_rate * numpy.pi * viscosity * body_diameter**3 / (BOLTZMANN_CONSTANT * temperature)


@computes("fading-mark")
def fading_mark(mark_at_first: float, age: float, half_life: float) -> float:
    """m₀ 2^(-t/t_h), in the unit of m₀; s, s."""
    positive(half_life=half_life)
    not_negative(mark_at_first=mark_at_first, age=age)
    result: float = mark_at_first * numpy.exp2(-(age / half_life))
    return result


@computes("reproduction-number")
def reproduction_number(contact_rate: float, transmission_probability: float, infectious_time: float) -> float:
    """c b D, pure number: how many one carrier passes it on to; 1/s, chance, s. Anderson and May 1991."""
    between(0, 1, transmission_probability=transmission_probability)
    not_negative(contact_rate=contact_rate, infectious_time=infectious_time)
    return contact_rate * transmission_probability * infectious_time


@computes("joining-neighbour-count")
def joining_neighbour_count(member_count: float) -> float:
    """0.5139 ln N: neighbours that surely join N members strewn at random in a plane into one net; number.

    The upper limit of Balister and others 2005 for large N; below 0.3043 ln N the net falls apart.
    """
    at_least(1, member_count=member_count)
    result: float = 0.5139 * numpy.log(member_count)
    return result


@computes("start-delay")
def start_delay(build_up_time: float, full_level: float, switching_level: float) -> float:
    """τ ln(1/(1 - K/Y)) in s: a copy that fills as 1 - exp(-t/τ) reaches the level K; s, levels in one unit.

    Mangan and Alon 2003. Raises ValueError where the full level does not exceed the switching level.
    """
    positive(full_level=full_level, full_level_less_switching_level=full_level - switching_level)
    not_negative(build_up_time=build_up_time, switching_level=switching_level)
    result: float = -build_up_time * numpy.log(1 - switching_level / full_level)
    return result


@computes("even-draw-rate")
def even_draw_rate(amount_stored: float, time_left: float) -> float:
    """S/(T - t) in mol/s, the rate that empties a store just at the end; mol, s. Scialdone and others 2013."""
    positive(time_left=time_left)
    not_negative(amount_stored=amount_stored)
    return amount_stored / time_left


@computes("long-run-growth")
def long_run_growth(stake_share: float, gain: float, reserve_survival: float, good_chance: float) -> float:
    """(f g + (1 - f) s)^p ((1 - f) s)^(1 - p), growth a round in the long run; share, times the stake, share, chance.

    Rounds yield g times the stake with chance p, else nothing; the reserve keeps the share s. Cohen 1966.
    """
    between(0, 1, stake_share=stake_share, reserve_survival=reserve_survival, good_chance=good_chance)
    not_negative(gain=gain)
    kept = (1 - stake_share) * reserve_survival
    return power(stake_share * gain + kept, good_chance) * power(kept, 1 - good_chance)


@computes("uncancelled-share")
def uncancelled_share(gain: float, path_delay: float, disturbance_time: float) -> float:
    """|1 - G e^(-iωτ)| = √(1 - 2 G cos ωτ + G²), pure number; gain, s, s (one over the angular frequency ω).

    Feedforward with a pure delay, textbook of control.
    """
    positive(disturbance_time=disturbance_time)
    not_negative(path_delay=path_delay)
    # as a sum of two squares, since 1 - cos loses all its digits at small angles
    remaining = (1 - gain) ** 2 + 4 * gain * numpy.sin(path_delay / disturbance_time / 2) ** 2
    return power(remaining, 0.5)


@computes("settled-answer")
def settled_answer(repeat_interval: float, recovery_time: float, use_share: float) -> float:
    """(1 - x)/(1 - (1 - u) x) with x = exp(-T/τ), 0 to 1: answer after many repeats over the first; s, s, share.

    What a ← 1 - (1 - (1 - u) a) x settles to: each use takes the share u, and the rest recovers exponentially.
    """
    positive(recovery_time=recovery_time, repeat_interval=repeat_interval)
    between(0, 1, use_share=use_share)
    left = numpy.exp(-repeat_interval / recovery_time)
    answer: float = (1 - left) / (1 - (1 - use_share) * left)
    return answer
