"""The sums of one evaluation in plain Python: six lines, three stages. Prints evaluations per second.

Same masses, same volume model (OIML R 22, ICUMSA SPS-4 at 20 °C), same dilution curve, same prices as
evaluation_bench.cpp; no library, no caching, facts prepared once.
"""
import time

# OIML R 22 at 20 °C: rho = 998.20123 + sum A(k) p^k, p the mass fraction of ethanol.
A = [998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042,
     -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426]
# ICUMSA SPS-4 at 20 °C: rho = 998.2023 + sum b(k) w^k, w the mass fraction of sugar.
B = [998.2023, 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890]


def poly(a, x):
    s = 0.0
    for c in reversed(a):
        s = s * x + c
    return s


def volume(eth, water, sugar, acid):
    ew = eth + water
    v = ew / poly(A, eth / ew) * 1000 + acid * 0.5973
    if sugar > 0:
        v += ((sugar + water) / poly(B, sugar / (sugar + water)) - water / B[0]) * 1000
    return v


def prepare(abv, sugar, acid):
    """Grams per ml of ethanol, water, sugar, acid, so that they fill one ml."""
    eth, s, a = abv / 100 * 0.78924, sugar / 1000, acid / 1000
    low, high = 0.0, 1.1
    for _ in range(60):
        mid = (low + high) / 2
        if volume(eth, mid, s, a) > 1:
            high = mid
        else:
            low = mid
    return eth, low, s, a


LINES = [(prepare(43, 0, 0), 26.0 / 700), (prepare(63, 0, 0), 32.0 / 700), (prepare(40, 250, 0), 24.0 / 700),
         (prepare(0, 17, 60), 5.0 / 700), (prepare(0, 682, 0), 9.0 / 700), (prepare(44.7, 40, 0), 90.0 / 700)]


def read(eth, water, sugar, acid, poured, cost):
    v = volume(eth, water, sugar, acid)
    mass = eth + water + sugar + acid
    return {
        "poured_volume": poured, "volume": v, "strength": eth / 0.78924 / v * 100, "ethanol": eth,
        "sugar": 100 * sugar / v, "brix": 100 * sugar / mass, "acid": 100 * acid / v,
        "ratio": sugar / acid if acid else None, "mass": mass, "density": 1000 * mass / v, "cost": cost,
        "kj": 29 * eth + 17 * sugar + 13 * acid, "kcal": 7 * eth + 4 * sugar + 3 * acid, "drinks": eth / 10,
    }


def evaluate(amounts):
    eth = water = sugar = acid = poured = cost = 0.0
    for ml, (facts, price) in zip(amounts, LINES):
        eth += ml * facts[0]
        water += ml * facts[1]
        sugar += ml * facts[2]
        acid += ml * facts[3]
        poured += ml
        cost += ml * price
    measured = read(eth, water, sugar, acid, poured, cost)
    a = min(max(measured["strength"] / 100, 0.15), 0.45)
    ratio = -1.567 * a * a + 1.742 * a + 0.203
    water += ratio * measured["volume"] * 0.9982
    mixed = read(eth, water, sugar, acid, poured, cost)
    served = read(eth, water, sugar, acid, poured, cost)
    return measured, mixed, served


if __name__ == "__main__":
    best = 0.0
    for _ in range(5):
        n = 2000
        start = time.perf_counter()
        for i in range(n):
            evaluate((40, 10, 15, 20 + i % 8, 12.5, 1.8))
        best = max(best, n / (time.perf_counter() - start))
    print(best)
