"""How cement hardens in the cold.

The rule that waits are reckoned with is the trade's: the time doubles for each step colder. Two models of concrete practice stand
beside it, Nurse-Saul (straight) and Arrhenius (ASTM C1074, curved): how fast cement hardens at one temperature against another.
All three say nothing of drying, nor of resins, and below the least temperature of a product the answer is not to start.
A time is never made shorter than the data sheet's because it is warm.
"""

from __future__ import annotations

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work

COLD = "rule of thumb of the trade: setting time doubles for each step colder; cautious among those in use"
NURSE_SAUL = "Nurse-Saul maturity"
ARRHENIUS = "Arrhenius maturity, ASTM C1074"


def in_the_cold(minimum: Quantity, surface: Quantity, practice: Practice, latest: Quantity | None = None) -> Quantity:
    """A setting time at this temperature, rounded up to whole steps; never shorter than `minimum`, nor past `latest`."""
    reference = practice.limit("wait-cold-below")
    if surface.value >= reference.value:
        return minimum
    longer = "ceil(time * power(2, (reference - surface) / doubling) / step) * step"
    inputs = {
        "time": minimum, "reference": reference, "surface": surface, "doubling": practice.limit("wait-cold-step"),
        "step": practice.limit("wait-step"),
    }
    if latest is not None:
        # The product's own window wins over a rule of thumb.
        return work(f"min({longer}, latest)", minimum.shown.symbol, source=COLD, latest=latest, **inputs)
    return work(longer, minimum.shown.symbol, source=COLD, **inputs)


def straight(temperature: Quantity, reference: Quantity, datum: Quantity) -> Quantity:
    """Nurse-Saul: how fast cement hardens against the reference; nought at the datum and below."""
    return work(
        "max(temperature - datum, 0 * (reference - datum)) / (reference - datum)", "", source=NURSE_SAUL,
        temperature=temperature, reference=reference, datum=datum,
    )


def curved(temperature: Quantity, reference: Quantity, activation: Quantity, practice: Practice) -> Quantity:
    """Arrhenius: the same, by the activation energy over the gas constant."""
    return work(
        "exp(activation / (zero + reference) - activation / (zero + temperature))", "", source=ARRHENIUS,
        temperature=temperature, reference=reference, activation=activation, zero=practice.limit("absolute-zero-step"),
    )


def age(lasted: Quantity, rate: Quantity) -> Quantity:
    """The age that cement reaches while this lasts, in time at the reference temperature."""
    return work("time * rate", lasted.shown.symbol, source="equivalent age", time=lasted, rate=rate)


def corrected(minimum: Quantity, rate: Quantity) -> Quantity:
    """The time that stands for `minimum` at the reference temperature; never shorter."""
    return work("max(time, time / rate)", minimum.shown.symbol, source="equivalent age, never shorter", time=minimum, rate=rate)
