"""How records and traces are written: YAML on few lines, CSV from the physics that the figures undo."""
import datetime
import hashlib
import json
import math
import shutil

P_REF, T_REF, P_AMB = 101325.0, 293.15, 100620.0


def day(date, plus=0, clock="09:00", offset="+01:00"):
    d = datetime.date.fromisoformat(date) + datetime.timedelta(days=plus)
    summer = datetime.date(d.year, 3, 29) <= d < datetime.date(d.year, 10, 25)
    return f"{d}T{clock}:00{'+02:00' if summer else offset}"


def winter_time(at):
    return datetime.datetime.fromisoformat(at).astimezone(datetime.timezone(datetime.timedelta(hours=1))).isoformat()


def clock(minutes):
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def q(value):
    """A YAML value on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {q(v)}" for k, v in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(q(v) for v in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return "null"
    if isinstance(value, (int, float)):
        return str(value)
    if value and value.replace("_", "a").replace("-", "a").isalnum() and value[0].isalpha() and value not in ("yes", "no", "on", "off", "true", "false", "null", "none"):
        return value
    return json.dumps(value, ensure_ascii=False)


def record(kind, record_id, at, by, fields, revision=1, source=None, supersedes=None, reason=None):
    lines = [f"kind: {kind}", f"record_id: {q(record_id)}", f"revision: {revision}"]
    if supersedes:
        lines += [f"supersedes: {q({'id': record_id, 'revision': supersedes})}", f"change_reason: {q(reason)}"]
    lines += [f'recorded_at: "{at}"', f"recorded_by: {by}"]
    if source:
        lines.append(f"source: {source}")
    for key, value in fields.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            lines.append(f"{key}:")
            lines += [f"  - {q(item)}" for item in value]
        else:
            lines.append(f"{key}: {q(value)}")
    return "\n".join(lines) + "\n"


def caliper_log(folder, sheet, roll, at, widths):
    """What a caliper exported of one coil, and what the record says of it; its clock stands in winter time."""
    begun = datetime.datetime.fromisoformat(at)
    rows = ["Caliper log, one coil a file", "Sheet;Roll;Coil;Begun (winter time);By;Blades;Position m;Width mm"]
    rows += [f"{sheet};{roll};C1;{begun:%d.%m.%Y %H:%M};dov;BS-2;{10 * i},0;{w.replace('.', ',')}" for i, w in enumerate(widths)]
    text = "\r\n".join(rows) + "\r\n"
    digest = hashlib.sha256(text.encode("cp1252")).hexdigest()
    return {**folder.file(f"exports/{sheet.lower()}-{digest[:8]}.csv", text), "lines": f"3-{len(widths) + 2}", "mapping": {"id": "IM-SLIT", "revision": 1}}


class Folder:
    """One dossier folder in the making."""

    def __init__(self, root):
        self.root, self.records, self.files = root, {}, {}

    def add(self, file, text):
        self.records.setdefault(file, []).append(text)

    def file(self, name, text):
        self.files[name] = text
        return {"file": name, "sha256": hashlib.sha256(text.encode()).hexdigest()}

    def write(self):
        if self.root.exists():
            shutil.rmtree(self.root)
        for name, texts in self.records.items():
            self.files[name] = "---\n".join(texts)
        for name, text in sorted(self.files.items()):
            path = self.root / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())


def decay(rng, flow, volume, start, drift):
    """31 rows of a pressure decay: flow in mL/min at the start pressure (mbar gauge)."""
    rows = ["time_s,pressure_mbar_gauge,gas_temperature_c"]
    base = 20.1 + rng.uniform(-0.05, 0.05)
    tau = volume * T_REF * start * 100 / (P_REF * (base + 273.15) * flow * 1e-6 / 60)
    for i in range(31):
        t = 10 * i
        temperature = base + drift * t / 300
        # Amount of gas falls with gauge pressure; temperature moves the reading.
        gauge = start * 100 * math.exp(-t / tau)
        absolute = (gauge + P_AMB) * (temperature + 273.15) / (base + 273.15)
        rows.append(f"{t},{(absolute - P_AMB) / 100 + rng.gauss(0, 0.03):.2f},{temperature + rng.gauss(0, 0.002):.3f}")
    return "\n".join(rows) + "\n"


def ramp(rng, flow, at, bubble, step=25):
    """A stepped ramp: the diffusive line, then the knee that reaches 1.5 times the line at the bubble point (bar)."""
    rows = ["time_s,pressure_mbar_gauge,gas_flow_ml_min"]
    knee = bubble * 1000 - 80
    for i in range(200):
        p = at + step * i + rng.uniform(-0.4, 0.4)
        line = flow * p / at
        over = max(0.0, (p - knee) / 80)
        rows.append(f"{15 * i},{p:.1f},{line * (1 + 0.5 * over ** 2) + rng.gauss(0, 0.004 * flow):.3f}")
        if over > 1.9:
            break
    return "\n".join(rows) + "\n"


def steam(rng, date, begin, gap=None, hold=121.6):
    rows = ["timestamp,temperature_c,pressure_mbar_abs"]
    for i in range(105):
        minutes = i * 0.5
        temperature = min(hold, 84 + minutes * 3.1) if minutes < 46 else hold - (minutes - 46) * 6.5
        temperature += rng.uniform(-0.12, 0.12)
        if gap and gap[0] < minutes < gap[1]:
            continue
        seconds = int(i * 30)
        stamp = f"{date}T{clock(begin + seconds // 60)}:{seconds % 60:02d}+02:00"
        # Saturated steam, Antoine equation of water (constants from memory), close enough for a demo.
        pressure = 133.322e-2 * 10 ** (8.14019 - 1810.94 / (244.485 + temperature))
        rows.append(f"{stamp},{temperature:.1f},{pressure:.0f}")
    return "\n".join(rows) + "\n"


def plate(rng, target, seconds):
    rows = ["time_s,temperature_c"]
    for i in range(int(seconds) * 2 + 1):
        rows.append(f"{i / 2:.1f},{target + rng.gauss(0, 0.8):.1f}")
    return "\n".join(rows) + "\n"
