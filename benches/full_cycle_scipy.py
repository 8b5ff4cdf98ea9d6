"""The full cycle of the gap engine in benches/full_cycle.rs, as differential equations for scipy's solve_ivp.

Same engine, same equations: one pressure, mass and energy of each cell, tilted upwind enthalpy, heat by the
same correlations, a linear leak. solve_ivp (LSODA) runs turn after turn until the state comes back to itself
within ten times the relative tolerance. Prints work, turns and seconds of processor time. Needs numpy and scipy.

    python benches/full_cycle_scipy.py [rpm] [rtol]
"""

import sys
import time

import numpy as np
from scipy.integrate import solve_ivp

RPM = float(sys.argv[1]) if len(sys.argv) > 1 else 300.0
RTOL = float(sys.argv[2]) if len(sys.argv) > 2 else 1e-4
HOT, COLD, ROOM = 773.15, 333.15, 101325.0
GAP_CELLS = 12
TAU = 2 * np.pi
OMEGA = RPM / 60 * TAU

# Air, as in the catalogue: R, cubic cp, power laws.
R = 287.047
BETWEEN = (HOT - COLD) / np.log(HOT / COLD)
t = BETWEEN / 1000
CP = 1037.981 + t * (-291.223 + t * (709.762 + t * -314.558))
C = CP / R


def mu(T):
    return 1.85469e-5 * (T / 300) ** 0.7118


def cond(T):
    return 2.63767e-2 * (T / 300) ** 0.7894


def cp_of(T):
    t = T / 1000
    return 1037.981 + t * (-291.223 + t * (709.762 + t * -314.558))


# Geometry in metres.
ROD = 0.070
BORE, GAP, LENGTH, THROW = 0.096, 0.0006, 0.110, 0.014
A_HOT = np.pi / 4 * BORE**2
A_COLD = A_HOT - np.pi / 4 * 0.008**2
PISTON = 0.064
A_PISTON = np.pi / 4 * PISTON**2
LEAK = 1e-8


def crank(a):
    """Displacement from the top and its derivative by the angle."""
    aside = THROW * np.sin(a)
    along = np.sqrt(ROD**2 - aside**2)
    return THROW + ROD - THROW * np.cos(a) - along, THROW * (np.sin(a) + np.cos(a) * aside / along)


INNER = BORE - 2 * GAP
GAP_AREA = np.pi / 4 * (BORE**2 - INNER**2)
GAP_WET = np.pi * (BORE + INNER) * LENGTH
GAP_DH = 4 * GAP_AREA * LENGTH / GAP_WET
PORT_AREA, PORT_L, PORT_PER, PORT_ASPECT = 0.012 * 0.040, 0.020, 2 * (0.012 + 0.040), 0.3
PORT_DH = 4 * PORT_AREA / PORT_PER

# Cells: hot, gap 0..11, cold, port, power.
N = GAP_CELLS + 4
HOT_I, GAP_I, COLD_I, PORT_I, POWER_I = 0, slice(1, 1 + GAP_CELLS), GAP_CELLS + 1, GAP_CELLS + 2, GAP_CELLS + 3
WALL = np.full(N, COLD)
WALL[HOT_I] = HOT
WALL[GAP_I] = HOT + (COLD - HOT) * (np.arange(GAP_CELLS) + 0.5) / GAP_CELLS
PR = cp_of(WALL) * mu(WALL) / cond(WALL)
K, MU = cond(WALL), mu(WALL)


def volumes(a):
    d, dd = crank(a + np.pi)
    p, dp = crank(a + np.pi - np.pi / 2)
    stroke = 2 * THROW
    V, dV = np.zeros(N), np.zeros(N)
    V[GAP_I] = GAP_AREA * LENGTH / GAP_CELLS
    V[PORT_I] = PORT_AREA * PORT_L
    V[HOT_I], dV[HOT_I] = A_HOT * (1.5e-3 + d), A_HOT * dd
    V[COLD_I], dV[COLD_I] = A_HOT * 1.5e-3 + A_COLD * (stroke - d), -A_COLD * dd
    V[POWER_I], dV[POWER_I] = 4e-6 + A_PISTON * p, A_PISTON * dp
    return V, dV


def tanh_z(z):
    return np.where(z.real > 18, 1.0, np.tanh(np.where(z.real > 18, 1.0, z)))


def end_heat(D, V, Tw, swing, opening):
    """Gas spring and exchange of gas side by side; swing is the greatest less the least volume,
    opening the cross-section through which the gas comes in."""
    area = 2 * np.pi / 4 * D**2 + 4 * V / D
    dh = 4 * V / area
    k = cond(Tw)
    a = k / (ROOM / (R * Tw) * CP)
    pe = OMEGA * dh**2 / (4 * a)
    z = (1 + 1j) * np.sqrt(np.asarray(pe) / 8)
    th = tanh_z(z)
    lee = (np.sqrt(2 * pe) * (1 + 1j) * th / (1 - th / z)).real
    spring = np.maximum(lee, 0.56 * pe**0.69) * k / dh
    section = np.pi / 4 * D**2
    speed = 6.18 * (section / opening / 9) ** (2 / 3) * 2 * swing / section * RPM / 60
    streaming = 0.035 * (ROOM / (R * Tw) * speed * D / mu(Tw)) ** 0.8 * k / D
    return np.cbrt(spring**3 + streaming**3) * area


def gnielinski(re, pr):
    f = (0.790 * np.log(re) - 1.64) ** -2 / 8
    return f * (re - 1000) * pr / (1 + 12.7 * np.sqrt(f) * (pr ** (2 / 3) - 1))


def mixed(re, laminar, pr):
    share = np.clip((re - 2300) / 1700, 0, 1)
    return (1 - share) * laminar + share * gnielinski(np.maximum(re, 4000), pr)


def gap_nu(re):
    g = re * PR[GAP_I] * GAP_DH / LENGTH
    return mixed(re, 7.54 + 0.03 * g / (1 + 0.016 * g ** (2 / 3)), PR[GAP_I])


def port_nu(re):
    a = PORT_ASPECT
    series = 1 + a * (-2.610 + a * (4.970 + a * (-5.119 + a * (2.702 - 0.548 * a))))
    g = re * PR[PORT_I] * PORT_DH / PORT_L
    return mixed(re, 7.541 * series + 0.0668 * g / (1 + 0.04 * g ** (2 / 3)), PR[PORT_I])


def heat(a, flow, V):
    """h A of each cell [W/K]; flow in kg/s through the middle of the cells."""
    hA = np.zeros(N)
    hA[HOT_I] = end_heat(BORE, V[HOT_I], HOT, 2 * THROW * A_HOT, GAP_AREA)
    hA[COLD_I] = end_heat(BORE, V[COLD_I], COLD, 2 * THROW * A_COLD, GAP_AREA)
    hA[POWER_I] = end_heat(PISTON, V[POWER_I], COLD, 2 * THROW * A_PISTON, PORT_AREA)
    re = np.abs(flow[GAP_I]) * GAP_DH / (GAP_AREA * MU[GAP_I])
    hA[GAP_I] = gap_nu(re) * K[GAP_I] / GAP_DH * GAP_WET / GAP_CELLS
    re = abs(flow[PORT_I]) * PORT_DH / (PORT_AREA * MU[PORT_I])
    hA[PORT_I] = port_nu(re) * K[PORT_I] / PORT_DH * PORT_PER * PORT_L
    return hA


def towards(rise, left):
    if rise * left <= 0:
        return 0.0
    return min(0.5 * rise, left) if rise > 0 else max(0.5 * rise, left)


FACE_HOT, FACE_COLD = HOT, COLD


def tilt(T):
    s = np.zeros(N)
    g = T[GAP_I]
    a, b = g[1:-1] - g[:-2], g[2:] - g[1:-1]
    same = a * b > 0
    inner = np.zeros(GAP_CELLS - 2)
    inner[same] = a[same] * b[same] / (a[same] + b[same])
    s[2:GAP_CELLS] = inner
    s[1] = -towards(g[0] - g[1], HOT - g[0])
    s[GAP_CELLS] = towards(g[-1] - g[-2], COLD - g[-1])
    return s


def rates(a, y):
    """State: masses of the cells, pressure is theirs; then work of the hot space and of all, heat."""
    m = y[:N]
    p = y[N]
    V, dV = volumes(a)
    T = p * V / (R * m)
    out = LEAK * (p - ROOM)
    leak_T = T[POWER_I] if out > 0 else COLD
    s = tilt(T)
    flow = np.zeros(N)
    dV_t = dV * OMEGA
    # The heat transfer needs the flow, the flow the heat: two rounds from the flow without heat in mind.
    flow = LAST["flow"]
    for _ in range(2):
        Q = heat(a, flow, V) * (WALL - T)
        dp = (Q.sum() - CP * out * leak_T - C * p * dV_t.sum()) / ((C - 1) * V.sum())
        # c_p G T through each face, from the hot end on.
        store = (C - 1) * V * dp + C * p * dV_t - Q
        store[POWER_I] += CP * out * leak_T
        enthalpy = -np.cumsum(store)[:-1]
        up = np.where(enthalpy > 0, T[:-1] + s[:-1], T[1:] - s[1:])
        g = enthalpy / (CP * up)
        both = np.concatenate(([0.0], g, [0.0]))
        flow = 0.5 * (both[:-1] + both[1:])
    LAST["flow"] = flow
    dm = both[:-1] - both[1:]
    dm[POWER_I] -= out
    hot = np.zeros(N)
    hot[HOT_I], hot[GAP_I] = 1.0, 1 - (np.arange(GAP_CELLS) + 0.5) / GAP_CELLS
    return np.concatenate((dm / OMEGA, [dp / OMEGA, p * dV[HOT_I], p * dV.sum(), (hot * Q).sum() / OMEGA, p]))


LAST = {"flow": np.zeros(N)}


def main():
    V, _ = volumes(0.0)
    weights = np.mean([1 / (volumes(a)[0] / WALL).sum() for a in np.arange(36) * TAU / 36])
    p = ROOM / weights / (V / WALL).sum()
    y = np.concatenate((p * V / (R * WALL), [p, 0, 0, 0, 0]))
    scale = np.concatenate((y[: N + 1], [1.0, 1.0, 1.0, 1e5]))
    begin = time.process_time()
    for turns in range(1, 200):
        y[N + 1 :] = 0.0
        s = solve_ivp(rates, (0, TAU), y, method="LSODA", rtol=RTOL, atol=RTOL * 1e-2 * scale, max_step=TAU / 60)
        end = s.y[:, -1]
        T = lambda y: y[N] * V / (R * y[:N])
        change = max(np.abs(T(end) - T(y)).max() / HOT, abs(end[N] - y[N]) / ROOM)
        y = end.copy()
        if change < 10 * RTOL:
            break
    seconds = time.process_time() - begin
    print(f"rpm {RPM:g} rtol {RTOL:g}: work {y[N + 2]:.6f} J, hot work {y[N + 1]:.5f} J, heat {y[N + 3]:.5f} J, "
          f"mean {y[N + 4] / TAU:.1f} Pa, {turns} turns, {seconds:.3f} s, {s.nfev} evaluations a turn")


if __name__ == "__main__":
    main()
