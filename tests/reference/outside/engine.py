"""A rocket for jsbsim, a general flight-dynamics engine in six degrees of freedom on a round earth, from the same plain
data as `free_flight.py` takes. What the engine does is the motion and the air; coefficients, thrust and mass are ours.

It has no rod, so it starts at the release; no jet damping, so our side is told of a nozzle at the balance point; and its
own grain motor can't start from zero thrust, so thrust and burnt mass go in as tables of time. The earth doesn't turn."""

import math

import jsbsim
import numpy as np

FOOT, POUND, SLUG = 0.3048, 4.4482216152605, 14.593902937206365
INCH = FOOT / 12
SLUG_FT2 = SLUG * FOOT**2
G0 = 9.80665
RADIUS = 6356766.0
STEP = 2e-4

PLANET = """<?xml version="1.0"?>
<planet name="Still">
  <semimajor_axis unit="M">{radius}</semimajor_axis>
  <semiminor_axis unit="M">{radius}</semiminor_axis>
  <rotation_rate unit="RAD/SEC">0</rotation_rate>
  <GM unit="M3/SEC2">{pull!r}</GM>
  <J2>0</J2>
</planet>
"""

AIRCRAFT = """<?xml version="1.0"?>
<fdm_config name="rocket" version="2.0" release="ALPHA">
  <metrics>
    <wingarea unit="M2">{area!r}</wingarea>
    <wingspan unit="M">1</wingspan>
    <chord unit="M">1</chord>
    <location name="AERORP" unit="M"><x>0</x><y>0</y><z>0</z></location>
  </metrics>
  <mass_balance>
    <ixx unit="KG*M2">1e-4</ixx>
    <iyy unit="KG*M2">{inertia!r}</iyy>
    <izz unit="KG*M2">{inertia!r}</izz>
    <emptywt unit="KG">{mass!r}</emptywt>
    <location name="CG" unit="M"><x>{x!r}</x><y>0</y><z>0</z></location>
    <pointmass name="propellant">
      <form shape="tube"><radius unit="M">0</radius><length unit="M">{length!r}</length></form>
      <weight unit="KG">{propellant!r}</weight>
      <location name="POINTMASS" unit="M"><x>{propellant_x!r}</x><y>0</y><z>0</z></location>
    </pointmass>
  </mass_balance>
  <ground_reactions/>
  <external_reactions>
    <force name="thrust" frame="BODY">
      <function><table><independentVar>simulation/sim-time-sec</independentVar><tableData>{thrust}</tableData></table></function>
      <location unit="M"><x>0</x><y>0</y><z>0</z></location>
      <direction><x>1</x><y>0</y><z>0</z></direction>
    </force>
  </external_reactions>
  <system name="burning">
    <channel name="burning" execrate="1">
      <fcs_function name="burning/weight">
        <function><table><independentVar>simulation/sim-time-sec</independentVar><tableData>{weight}</tableData></table></function>
        <output>inertia/pointmass-weight-lbs[0]</output>
      </fcs_function>
    </channel>
  </system>
  <aerodynamics>
    <function name="aero/s0"><table><independentVar>velocities/mach</independentVar><tableData>{s0}</tableData></table></function>
    <function name="aero/s1"><table><independentVar>velocities/mach</independentVar><tableData>{s1}</tableData></table></function>
    <function name="aero/s2"><table><independentVar>velocities/mach</independentVar><tableData>{s2}</tableData></table></function>
    <function name="aero/load"><product><property>aero/qbar-psf</property><property>metrics/Sw-sqft</property></product></function>
    <function name="aero/sine"><sin><property>aero/alpha-rad</property></sin></function>
    <function name="aero/extra"><product>
      <value>{extra!r}</value><property>aero/sine</property><abs><property>aero/sine</property></abs>
    </product></function>
    <function name="aero/cg-ft"><quotient><property>inertia/cg-x-in</property><value>12</value></quotient></function>
    <axis name="X"><function name="aero/force/axial"><product>
      <value>-{cd!r}</value><property>aero/load</property><cos><property>aero/alpha-rad</property></cos>
    </product></function></axis>
    <axis name="Z"><function name="aero/force/normal"><product>
      <value>-1</value><property>aero/load</property>
      <sum><product><property>aero/s0</property><property>aero/sine</property></product><property>aero/extra</property></sum>
    </product></function></axis>
    <axis name="PITCH">
      <function name="aero/moment/restoring"><product>
        <value>-1</value><property>aero/load</property>
        <sum>
          <product><property>aero/s1</property><property>aero/sine</property></product>
          <product><value>{extra_x!r}</value><property>aero/extra</property></product>
        </sum>
      </product></function>
      <function name="aero/moment/damping"><product>
        <value>-1</value><quotient><property>aero/load</property><property>velocities/vt-fps</property></quotient>
        <property>velocities/q-rad_sec</property>
        <sum>
          <property>aero/s2</property>
          <product><value>-2</value><property>aero/cg-ft</property><property>aero/s1</property></product>
          <product><property>aero/cg-ft</property><property>aero/cg-ft</property><property>aero/s0</property></product>
        </sum>
      </product></function>
    </axis>
  </aerodynamics>
</fdm_config>
"""


def table(points):
    return "\n" + "\n".join(f"{a:.12g} {b:.12g}" for a, b in points) + "\n"


def started(folder, q, slopes, gravity=G0):
    """An engine at the release of `q`. `slopes(mach)` gives the sums of CNa, CNa x and CNa x² of all parts."""
    times, forces = np.array(q["curve"], float).T
    release = q["release"]
    # The engine's clock starts at the release; behind the curve's end the thrust drops to nothing within a step.
    clock = np.unique(np.concatenate([times, np.linspace(times[0], times[-1], 2001), [release["time"]]]))
    clock = clock[clock >= release["time"]]
    force = np.interp(clock, times, forces)
    burnt = [np.trapezoid(*curve_up_to(times, forces, t)[::-1]) for t in clock] / np.trapezoid(forces, times)
    left = q["propellant"]["mass"] * (1 - burnt)
    clock = clock - release["time"]
    thrust = [*zip(clock, force / POUND), (clock[-1] + 1e-9, 0.0), (1e4, 0.0)]
    weight = [*zip(clock, left * G0 / POUND), (1e4, left[-1] * G0 / POUND)]
    grid = np.linspace(0, 0.9, 181)
    sums = np.array([slopes(mach) for mach in grid]) / np.array([1, FOOT, FOOT**2])
    # A thin tube's inertia across is m length²/12.
    length = math.sqrt(12 * q["propellant"]["transverse"] / q["propellant"]["mass"])
    text = AIRCRAFT.format(
        area=q["area"],
        mass=q["dry"]["mass"],
        x=q["dry"]["x"],
        inertia=q["dry"]["transverse"],
        length=length,
        propellant=float(left[0]),
        propellant_x=q["propellant"]["x"],
        thrust=table(thrust),
        weight=table(weight),
        s0=table(zip(grid, sums[:, 0])),
        s1=table(zip(grid, sums[:, 1])),
        s2=table(zip(grid, sums[:, 2])),
        extra=q["k"] * q["planform"] / q["area"],
        extra_x=q["planform_x"] / FOOT,
        cd=q["cd"],
    )
    (folder / "aircraft" / "rocket").mkdir(parents=True, exist_ok=True)
    (folder / "aircraft" / "rocket" / "rocket.xml").write_text(text, encoding="utf-8")
    (folder / "planet.xml").write_text(PLANET.format(radius=RADIUS, pull=gravity * RADIUS**2), encoding="utf-8")
    jsbsim.FGJSBBase().debug_lvl = 0
    fdm = jsbsim.FGFDMExec(str(folder))
    fdm.set_debug_level(0)
    fdm.load_planet(str(folder / "planet.xml"), False)
    assert fdm.load_model("rocket")
    fdm.set_dt(STEP)
    for which in ("rate/rotational", "rate/translational", "position/rotational", "position/translational"):
        fdm[f"simulation/integrator/{which}"] = 3
    tilt = release["tilt"]
    fdm["ic/h-sl-ft"] = (q["elevation"] + release["height"]) / FOOT
    fdm["ic/terrain-elevation-ft"] = -1000.0
    # Nose towards north or, turned over by all three angles, towards south: its right side stays in the east.
    fdm["ic/theta-deg"] = 90 - math.degrees(abs(tilt))
    fdm["ic/psi-true-deg"] = fdm["ic/phi-deg"] = 0.0 if tilt >= 0 else 180.0
    fdm["ic/vn-fps"] = release["speed"] * math.sin(tilt) / FOOT
    fdm["ic/vd-fps"] = -release["speed"] * math.cos(tilt) / FOOT
    fdm["ic/q-rad_sec"] = -release["rate"]
    assert fdm.run_ic()
    fdm["atmosphere/wind-north-fps"] = q["wind"] / FOOT
    return fdm


def curve_up_to(times, forces, t):
    inside = times < t
    return np.append(times[inside], t), np.append(forces[inside], np.interp(t, times, forces))


def tilt(fdm):
    """From the vertical towards north."""
    theta, psi = fdm["attitude/theta-rad"], fdm["attitude/psi-rad"]
    over = math.pi / 2 - theta
    return over if math.cos(psi) > 0 else -over


def climb(fdm, q):
    """To the highest point: its height over the resting place and time, the greatest speed, the tilt at burnout."""
    start = q["release"]["time"]
    burnout = q["curve"][-1][0] - start
    fastest, at_burnout, before = 0.0, None, None
    while True:
        now = (fdm["simulation/sim-time-sec"], fdm["position/h-sl-ft"] * FOOT, -fdm["velocities/v-down-fps"] * FOOT)
        across = fdm["velocities/v-north-fps"] * FOOT
        fastest = max(fastest, math.hypot(now[2], across))
        if at_burnout is None and now[0] >= burnout - STEP / 2:
            at_burnout = tilt(fdm)
        if now[2] <= 0:
            break
        before = now
        assert fdm.run()
    share = before[2] / (before[2] - now[2])
    height = before[1] + share * (now[1] - before[1]) - q["elevation"]
    return dict(height=height, time=start + before[0] + share * STEP, fastest=fastest, tilt=at_burnout)
