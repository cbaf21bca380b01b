//! tideboard, an open-source tide-forecast dashboard, and a harbour authority's fork of it that
//! runs on a box on the quay: where they parted, and what each has committed since.

/// A file as it was when the two last met.
pub struct File {
    pub path: &'static str,
    pub text: &'static str,
}

pub const BASE: [File; 4] = [
    File {
        path: "pyproject.toml",
        text: r#"[project]
name = "tideboard"
version = "1.4.0"
dependencies = [
    "httpx>=0.27",
    "jinja2>=3.1",
]
"#,
    },
    File {
        path: "tideboard/app.py",
        text: r#""""The board's clockwork."""

from tideboard.board import Board
from tideboard.clock import every
from tideboard.forecast import refresh


def main():
    """Show the forecast, and keep it fresh."""
    board = Board.from_config()
    every(minutes=10, run=refresh, on=board)
"#,
    },
    File {
        path: "tideboard/forecast.py",
        text: r#""""Tide forecasts for the board."""

from tideboard.net import get_json
from tideboard.units import metres

SERVICE = "https://tides.example/v1"


def forecast(station):
    """The forecast of one station."""
    data = get_json(SERVICE, station=station)
    return [metres(level) for level in data["levels"]]


def refresh(board):
    """Show every station's forecast anew."""
    for station in board.stations:
        levels = forecast(station)
        board.show(station, levels)


def high_water(levels):
    """The highest level ahead."""
    return max(levels)
"#,
    },
    File {
        path: "tideboard/gauge.py",
        text: r#""""Readings of the tide gauge."""


def accept(reading):
    """The height in metres, if the reading can be true."""
    if reading is None:
        raise ValueError("no reading")
    if reading < -20:
        raise ValueError("below the seabed")
    if reading > 20:
        raise ValueError("above the sea wall")
    return round(reading, 2)
"#,
    },
];

/// A commit: some text put in the place of other text, which stands once in its file.
pub struct Commit {
    pub message: &'static str,
    pub edits: &'static [Edit],
}

pub struct Edit {
    pub path: &'static str,
    pub from: &'static str,
    pub to: &'static str,
}

/// What the harbour authority has committed to its fork.
pub const FORK: [Commit; 4] = [
    Commit {
        message: "Show clearance under the quay's edge, on the quay's datum",
        edits: &[
            Edit { path: "tideboard/forecast.py", from: "import metres\n", to: "import feet, metres\n" },
            Edit { path: "tideboard/forecast.py", from: "station=station)", to: "station=station, datum=\"chart\")" },
            Edit {
                path: "tideboard/forecast.py",
                from: "    return max(levels)\n",
                to: r#"    return max(levels)


def clearance(levels, quay_edge):
    """How far the quay's edge stays above the water, in feet."""
    return feet(quay_edge - high_water(levels))
"#,
            },
        ],
    },
    Commit {
        message: "Light the lamp when the quay will flood",
        edits: &[
            Edit {
                path: "tideboard/forecast.py",
                from: "board.show(station, levels)",
                to: "board.show(station, levels, lamp=board.floods(levels))",
            },
            Edit {
                path: "pyproject.toml",
                from: "    \"jinja2>=3.1\",\n",
                to: "    \"jinja2>=3.1\",\n    \"pyserial>=3.5\",\n",
            },
        ],
    },
    Commit {
        message: "Correct for our gauge, which hangs 12 cm low",
        edits: &[Edit { path: "tideboard/gauge.py", from: "round(reading, 2)", to: "round(reading + 0.12, 2)" }],
    },
    Commit {
        message: "Refresh every half hour: the quay pays for its data",
        edits: &[Edit {
            path: "tideboard/app.py",
            from: "every(minutes=10, run=refresh, on=board)",
            to: "every(minutes=30, run=refresh, on=board, pause=\"22-06\")",
        }],
    },
];

/// What has come to upstream meanwhile.
pub const UPSTREAM: [Commit; 5] = [
    Commit {
        message: "Keep the board up when the service is slow",
        edits: &[
            Edit { path: "tideboard/forecast.py", from: "station=station)", to: "station=station, timeout=20)" },
            Edit {
                path: "tideboard/forecast.py",
                from: r#"        levels = forecast(station)
        board.show(station, levels)
"#,
                to: r#"        try:
            levels = forecast(station)
            board.show(station, levels)
        except TimeoutError:
            board.mark_stale(station)
"#,
            },
        ],
    },
    Commit {
        message: "Show low water and streams",
        edits: &[
            Edit { path: "tideboard/forecast.py", from: "import metres\n", to: "import knots, metres\n" },
            Edit {
                path: "tideboard/forecast.py",
                from: "    return max(levels)\n",
                to: r#"    return max(levels)


def low_water(levels):
    """The lowest level ahead."""
    return min(levels)


def stream(data):
    """The strongest stream ahead, in knots."""
    return max(knots(speed) for speed in data["streams"])
"#,
            },
        ],
    },
    Commit {
        message: "Leave the range of readings to the gauge's own driver",
        edits: &[Edit {
            path: "tideboard/gauge.py",
            from: r#"    if reading < -20:
        raise ValueError("below the seabed")
    if reading > 20:
        raise ValueError("above the sea wall")
"#,
            to: "",
        }],
    },
    Commit {
        message: "Refresh every five minutes, not all boards at once",
        edits: &[Edit {
            path: "tideboard/app.py",
            from: "every(minutes=10, run=refresh, on=board)",
            to: "every(minutes=5, run=refresh, on=board, jitter=20)",
        }],
    },
    Commit {
        message: "Release 1.5.0",
        edits: &[
            Edit { path: "pyproject.toml", from: "1.4.0", to: "1.5.0" },
            Edit {
                path: "pyproject.toml",
                from: "    \"jinja2>=3.1\",\n",
                to: "    \"jinja2>=3.1\",\n    \"platformdirs>=4.2\",\n",
            },
        ],
    },
];

/// A place that both sides changed without disagreeing.
pub struct Place {
    pub path: &'static str,
    /// What the fork did there.
    pub fork: &'static str,
    /// What upstream did there.
    pub upstream: &'static str,
    /// How the line begins, in the merged file, with which the place is shown, and how many lines.
    pub shown: &'static [(&'static str, usize)],
}

pub const PLACES: [Place; 6] = [
    Place {
        path: "tideboard/forecast.py",
        fork: "imports feet",
        upstream: "imports knots",
        shown: &[("from tideboard.units import", 1)],
    },
    Place {
        path: "tideboard/forecast.py",
        fork: "adds datum= to a call",
        upstream: "adds timeout= to the same call",
        shown: &[("    data = get_json(", 1)],
    },
    Place {
        path: "tideboard/forecast.py",
        fork: "adds lamp= to a line",
        upstream: "wraps that line in try",
        shown: &[("        try:", 5)],
    },
    Place {
        path: "tideboard/forecast.py",
        fork: "appends a function",
        upstream: "appends two",
        shown: &[("def clearance(", 1), ("def low_water(", 1), ("def stream(", 1)],
    },
    Place {
        path: "tideboard/gauge.py",
        fork: "corrects the result",
        upstream: "drops the checks just above it",
        shown: &[("        raise ValueError(\"no reading\")", 2)],
    },
    Place {
        path: "pyproject.toml",
        fork: "needs pyserial",
        upstream: "needs platformdirs",
        shown: &[("    \"pyserial", 1), ("    \"platformdirs", 1)],
    },
];

/// Where the sides do disagree, and about what.
pub const DISAGREEMENT: &str = "tideboard/app.py";

/// A block that shows what a line merge cannot know: which one of which file.
pub const NEEDLESS: (&str, &str) = ("tideboard/forecast.py", "get_json(SERVICE");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_edit_finds_its_text_once_in_the_file_as_the_commits_before_left_it() {
        for commits in [&FORK[..], &UPSTREAM[..]] {
            let mut files: Vec<(&str, String)> = BASE.iter().map(|f| (f.path, f.text.to_owned())).collect();
            for edit in commits.iter().flat_map(|c| c.edits) {
                let (_, text) = files.iter_mut().find(|(path, _)| *path == edit.path).expect("a file of the base");
                assert_eq!(text.matches(edit.from).count(), 1, "{} in {}", edit.from, edit.path);
                *text = text.replacen(edit.from, edit.to, 1);
            }
        }
    }
}
