"""Wood Handbook chapter 4: what moisture content wood comes to in given air."""

from __future__ import annotations

from scantling.wood.ranges import check_range

COLDEST, WARMEST = -2.0, 130.0  # °C: Wood Handbook Table 4-2
DAMPEST = 0.99  # relative humidity

INDOORS = 8.0  # % moisture, interior woodwork in most of the US: Wood Handbook Table 13-2, from memory


def equilibrium_moisture_content(temperature: float, humidity: float) -> float:
    """Equilibrium moisture content in percent; temperature in °C, relative humidity 0 to 1.

    Wood Handbook Eq. 4-5 with the Celsius coefficients; the table computed from it (4-2) runs from
    -1 to 130 °C. One tenth of a percent is finer than real wood keeps to.

    >>> round(equilibrium_moisture_content(21.1, 0.65), 1)
    12.0
    """
    check_range("temperature", temperature, COLDEST, WARMEST, "°C", "Wood Handbook Table 4-2")
    check_range("relative humidity", humidity, 0.0, DAMPEST, "", "Wood Handbook Table 4-2")
    T, h = temperature, humidity
    W = 349.0 + 1.29 * T + 0.0135 * T**2
    K = 0.805 + 0.000736 * T - 0.00000273 * T**2
    K1 = 6.27 - 0.00938 * T - 0.000303 * T**2
    K2 = 1.91 + 0.0407 * T - 0.000293 * T**2
    Kh = K * h
    solution = K1 * Kh + 2.0 * K1 * K2 * Kh**2
    return 1800.0 / W * (Kh / (1.0 - Kh) + solution / (1.0 + K1 * Kh + K1 * K2 * Kh**2))


def humidity_of_moisture(temperature: float, moisture: float) -> float:
    """Relative humidity (0 to 1) of air in which wood comes to `moisture` percent: Eq. 4-5 inverted."""
    top = equilibrium_moisture_content(temperature, DAMPEST)
    check_range("moisture content", moisture, 0.0, top, "%", "Wood Handbook Eq. 4-5")
    low, high = 0.0, DAMPEST
    for _ in range(60):
        middle = (low + high) / 2.0
        if equilibrium_moisture_content(temperature, middle) < moisture:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
