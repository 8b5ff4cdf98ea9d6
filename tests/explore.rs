//! Sweeps: the table, its shards, the chart, and what is refused.

use std::path::Path;
use std::process::{Command, Output, Stdio};
use swept::explore::{Input, Shard, Sweep, Table, TableError, chart, merge};

const PUMP: &str = "sample-designs/allotment-pump.toml";

fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_swept"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(arguments).stdin(Stdio::null());
    command
}

fn explore(arguments: &[&str]) -> Output {
    command(&[&["explore"], arguments].concat()).output().unwrap()
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn pump() -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(PUMP)).unwrap()
}

/// A sweep with the isothermal model, of which the first law and Carnot's efficiency are known.
fn sweep(inputs: &[(&str, &str, usize)]) -> Sweep {
    let read = |(path, values, steps): &(&str, &str, usize)| Input::read(path, values, Some(*steps)).unwrap();
    let sets = vec![("model.cycle".to_owned(), "isothermal".to_owned())];
    Sweep::new(PUMP, pump(), sets, inputs.iter().map(read).collect()).unwrap()
}

fn run(inputs: &[(&str, &str, usize)]) -> Table {
    sweep(inputs).run(Shard::WHOLE, &|| ())
}

const STROKES: [(&str, &str, usize); 2] =
    [("piston.stroke", "16 mm..44 mm", 8), ("displacer.stroke", "20 mm..60 mm", 9)];

#[test]
fn a_table_has_a_row_for_each_point_and_a_number_for_each_output() {
    let isothermal = ["--set", "model.cycle=isothermal"];
    let done = explore(
        &[&[PUMP, "--over", "piston.stroke=\"20 mm..36 mm\"", "--steps", "5"][..], &isothermal].concat(),
    );
    assert_eq!(code(&done), 0, "{}", text(&done.stderr));
    let shown = text(&done.stdout);
    let (mark, table) = shown.split_once('\n').unwrap();
    assert!(mark.starts_with("# swept ") && mark.ends_with("shard 1/1, 5 of 5 points"), "{mark}");
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let head = reader.headers().unwrap().clone();
    let column = |name: &str| head.iter().position(|head| head == name).expect(name);
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let strokes: Vec<&str> = rows.iter().map(|row| &row[column("piston.stroke [mm]")]).collect();
    assert_eq!(strokes, ["20", "24", "28", "32", "36"]);
    let number = |row: &csv::StringRecord, name: &str| row[column(name)].parse::<f64>().unwrap();
    for row in &rows {
        assert_eq!((&row[column("model")], &row[column("refused")]), ("isothermal", ""));
        // The first law, and the efficiency of Carnot between 500 °C and 28 °C, which an isothermal cycle with a perfect
        // regenerator has (Carnot 1824).
        let (work, heat) = (number(row, "indicated-power [W]"), number(row, "heat-in [W]"));
        assert!((heat - number(row, "heat-out [W]") - work).abs() < 1e-4);
        assert!((number(row, "efficiency [%]") - 100.0 * (1.0 - 301.15 / 773.15)).abs() < 1e-4);
    }
}

/// A point says the same as `swept size --set` there.
#[test]
fn a_point_is_what_size_says() {
    let table = run(&[("piston.stroke", "2 cm..36 mm", 5)]);
    let size =
        command(&["size", PUMP, "--set", "piston.stroke=24 mm", "--set", "model.cycle=isothermal", "--json"])
            .output()
            .unwrap();
    let size: serde_json::Value = serde_json::from_slice(&size.stdout).unwrap();
    let wanted = size["operating_point"]["indicated_power_W"].as_f64().unwrap();
    let row = table.rows.iter().find(|row| row.inputs == ["24"]).unwrap();
    let power = swept::explore::OUTPUTS.iter().position(|o| o.name == "indicated-power").unwrap();
    assert!((row.outputs[power].unwrap() - wanted).abs() < 1e-5, "{row:?} {wanted}");
}

#[test]
fn a_point_that_breaks_a_rule_is_a_row_with_its_code() {
    let design = "tests/broken-engines/piston-stroke-longer-than-its-cylinder.toml";
    let done = explore(&[design, "--over", "piston.stroke=20 mm..48 mm", "--steps", "8"]);
    assert_eq!(code(&done), 0, "{}", text(&done.stderr));
    let table = Table::from_csv("x", &done.stdout).unwrap();
    // That the longest stroke is 28 mm stands beside the broken engine.
    for row in &table.rows {
        let stroke: f64 = row.inputs[0].parse().unwrap();
        assert_eq!(row.refused, if stroke > 28.0 { "swept::stroke" } else { "" }, "{row:?}");
        assert_eq!(row.why.is_empty() && row.outputs.iter().any(Option::is_some), stroke <= 28.0);
    }
    assert!(text(&done.stderr).contains("8 points, 5 refused"), "{}", text(&done.stderr));
}

#[test]
fn shards_give_the_bytes_of_one_run_in_any_order() {
    let whole = run(&STROKES).to_csv().unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).display().to_string();
    let strokes = STROKES.map(|(path, values, _)| format!("{path}={values}"));
    let isothermal = "model.cycle=isothermal";
    let sweep = [
        PUMP,
        "--set",
        isothermal,
        "--over",
        &strokes[0],
        "--over",
        &strokes[1],
        "--steps",
        "8",
        "--steps",
        "9",
    ];
    let files: Vec<String> = (1..=3).map(|k| path(&format!("{k}.csv"))).collect();
    for (k, file) in files.iter().enumerate() {
        let shard = format!("{}/3", k + 1);
        let done = explore(&[&sweep[..], &["--shard", &shard, "--csv", file, "-q"]].concat());
        assert_eq!((code(&done), text(&done.stdout), text(&done.stderr)), (0, "", ""));
    }
    let all = path("all.csv");
    let (chart_file, direct) = (path("all.svg"), path("direct.svg"));
    let merged = ["--merge", &files[2], &files[0], &files[1], "--csv", &all, "--chart", &chart_file];
    let done = explore(&merged);
    assert_eq!(code(&done), 0, "{}", text(&done.stderr));
    assert!(std::fs::read(&all).unwrap() == whole);
    explore(&[&sweep[..], &["--chart", &direct]].concat());
    assert!(std::fs::read(&chart_file).unwrap() == std::fs::read(&direct).unwrap());

    let lacking = explore(&["--merge", &files[0], &files[2], "--csv", &path("none.csv")]);
    assert_eq!(code(&lacking), 1);
    assert!(text(&lacking.stderr).contains("shard 2/3 is missing"), "{}", text(&lacking.stderr));
    assert!(!Path::new(&path("none.csv")).exists());
    let twice = explore(&["--merge", &files[0], &files[0], &files[1], &files[2]]);
    assert!(text(&twice.stderr).contains("shard 1/3 stands in"), "{}", text(&twice.stderr));
}

#[test]
fn shards_of_unlike_sweeps_are_not_put_together() {
    let half = |steps: usize, number: usize, of: usize| {
        let table =
            sweep(&[("piston.stroke", "20 mm..36 mm", steps)]).run(Shard::new(number, of).unwrap(), &|| ());
        (format!("{steps}-{number}-{of}.csv"), table)
    };
    let said = |tables| merge(tables).unwrap_err().to_string();
    assert!(said(vec![half(6, 1, 2), half(7, 2, 2)]).contains("do not belong together"));
    assert!(said(vec![half(6, 1, 2), half(6, 2, 3)]).contains("take one way of splitting"));
    assert!(said(vec![]).contains("no table"));
    let other = Sweep::new(
        PUMP,
        pump(),
        vec![("engine.gas".into(), "helium".into())],
        vec![Input::read("piston.stroke", "20 mm..36 mm", Some(6)).unwrap()],
    );
    let other = other.unwrap().run(Shard::new(2, 2).unwrap(), &|| ());
    assert!(said(vec![half(6, 1, 2), ("helium.csv".into(), other)]).contains("helium.csv do not belong"));
}

#[test]
fn a_table_that_was_cut_off_or_is_none_is_told() {
    let table = run(&[("piston.stroke", "20 mm..36 mm", 4)]);
    let bytes = table.to_csv().unwrap();
    assert_eq!(Table::from_csv("x", &bytes).unwrap(), table, "and back");
    let shorter = &bytes[..bytes[..bytes.len() - 1].iter().rposition(|b| *b == b'\n').unwrap() + 1];
    let cut = Table::from_csv("x.csv", shorter);
    assert_eq!(cut, Err(TableError::Length { file: "x.csv".into(), wanted: 4, found: 3 }));
    assert!(matches!(Table::from_csv("x", &bytes[..bytes.len() - 4]), Err(TableError::Row { row: 4, .. })));
    assert!(matches!(Table::from_csv("x", b"a,b\n1,2\n"), Err(TableError::NoMark { .. })));
    let renamed = text(&bytes).replace("heat-in", "heat");
    assert!(matches!(Table::from_csv("x", renamed.as_bytes()), Err(TableError::Columns { .. })));
}

#[test]
fn one_thread_and_two_give_the_same_bytes() {
    let sweep =
        [PUMP, "--over", "piston.stroke=16 mm..44 mm", "--over", "drive.lead=60°..120°", "--steps", "9"];
    let with = |threads: &str, output: &[&str]| {
        let arguments = [&["explore"], &sweep[..], output].concat();
        command(&arguments).env("RAYON_NUM_THREADS", threads).output().unwrap().stdout
    };
    for output in [&["--csv", "-"][..], &["--chart", "-"]] {
        let one = with("1", output);
        assert!(!one.is_empty() && one == with("2", output));
    }
}

#[test]
fn nonsense_on_the_command_line_ends_with_2_and_a_sentence() {
    let stroke = "piston.stroke=20 mm..36 mm";
    let cases: [(&[&str], &str); 15] = [
        (&["--over", "piston.strok=20 mm..36 mm"], "did you mean piston.stroke?"),
        (&["--over", "piston.stroke=20 bar..36 bar"], "`bar` is not a unit of length"),
        (&["--over", "engine.gas=air..helium"], "has no range"),
        (&["--over", stroke, "--steps", "0"], "has 0 steps"),
        (&["--over", stroke, "--steps", "100000000000"], "has 100000000000 steps"),
        (&["--over", stroke, "--steps", "9", "--steps", "9"], "--steps is given more often"),
        (&["--over", stroke, "--over", stroke], "piston.stroke is swept twice"),
        (
            &["--over", stroke, "--over", "drive.lead=80°..90°", "--over", "piston.bore=50 mm"],
            "3 inputs are swept",
        ),
        (&["--over", stroke, "--set", "piston.stroke=30 mm"], "both set and swept"),
        (
            &["--over", stroke, "--over", "displacer.stroke=30 mm..40 mm", "--steps", "2000"],
            "more than 1000000 points",
        ),
        (&["--over", stroke, "--shard", "4/3"], "1 <= NUMBER <= OF"),
        (&["--over", stroke, "--steps", "3", "--shard", "1/4"], "is empty"),
        (&["--over", stroke, "--what", "shaft-powr"], "did you mean shaft-power?"),
        (&["--over", stroke, "--csv", "-", "--chart", "-"], "cannot both go to stdout"),
        (&["--over", "piston.stroke"], "write KEY=VALUES"),
    ];
    for (arguments, said) in cases {
        let done = explore(&[&[PUMP], arguments].concat());
        let shown = text(&done.stderr);
        assert_eq!((code(&done), text(&done.stdout)), (2, ""), "{arguments:?}: {shown}");
        assert!(shown.contains(said), "{arguments:?}: {shown}");
    }
    for arguments in [&[PUMP][..], &[], &[PUMP, "--merge", "a.csv"]] {
        assert_eq!(code(&explore(arguments)), 2, "{arguments:?}");
    }
}

#[test]
fn a_wrong_design_is_told_once_and_ends_with_1() {
    let done = explore(&["tests/broken-designs/unknown-key.toml", "--over", "piston.stroke=20 mm..36 mm"]);
    assert_eq!((code(&done), text(&done.stdout)), (1, ""));
    assert_eq!(text(&done.stderr).matches("error[swept::").count(), 1, "{}", text(&done.stderr));
    assert_eq!(code(&explore(&["no-such.toml", "--over", "piston.stroke=20 mm..36 mm"])), 3);
    assert_eq!(code(&explore(&["--merge", "no-such.csv"])), 3);
}

#[test]
fn quiet_says_nothing_and_the_summary_names_the_best_point() {
    let sweep = [PUMP, "--over", "piston.stroke=36 mm..20 mm", "--steps", "3"];
    assert_eq!(text(&explore(&[&sweep[..], &["-q"]].concat()).stderr), "");
    let said = explore(&sweep);
    assert!(text(&said.stderr).contains("3 points, 0 refused"), "{}", text(&said.stderr));
    assert!(text(&said.stderr).contains("at piston.stroke 36 mm"), "{}", text(&said.stderr));
}

/// Texts that a chart letters.
fn lettered(svg: &str) -> Vec<&str> {
    svg.split("aria-label=\"").skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn a_chart_over_one_input_names_its_axes_and_its_best_point() {
    let svg = chart(&run(&[("piston.stroke", "20 mm..36 mm", 9)]), &[]).unwrap();
    let texts = lettered(&svg);
    for wanted in [
        "piston.stroke [mm]",
        "indicated power [W]",
        "efficiency [%]",
        "20",
        "36",
        "isothermal model at 300 rpm",
    ] {
        assert!(texts.contains(&wanted), "{wanted}: {texts:?}");
    }
    assert!(
        texts
            .iter()
            .any(|t| t.starts_with("most indicated power: ") && t.ends_with(" W at piston.stroke 36 mm")),
        "{texts:?}"
    );
    assert!(svg.contains("id=\"curves\"") && !svg.contains("id=\"hatching\""));
}

#[test]
fn a_chart_over_two_inputs_has_numbered_lines_and_hatches_what_cannot_be() {
    let table = run(&[("piston.stroke", "16 mm..44 mm", 21), ("displacer.stroke", "20 mm..60 mm", 21)]);
    assert!(!table.refusals().is_empty());
    let svg = chart(&table, &[]).unwrap();
    let texts = lettered(&svg);
    for wanted in ["piston.stroke [mm]", "displacer.stroke [mm]", "16", "18", "28"] {
        assert!(texts.contains(&wanted), "{wanted}: {texts:?}");
    }
    assert!(texts.iter().any(|t| t.starts_with("cannot be built: ") && t.ends_with("of 441")), "{texts:?}");
    assert!(svg.contains("id=\"lines-of-equal-value\"") && svg.contains("id=\"hatching\""));
}

#[test]
fn words_give_a_curve_each_and_what_no_model_knows_is_told() {
    let table = run(&[("piston.stroke", "20 mm..36 mm", 5), ("engine.gas", "air, helium", 2)]);
    let svg = chart(&table, &[]).unwrap();
    assert!(lettered(&svg).contains(&"air") && lettered(&svg).contains(&"helium"));
    let shaft = swept::explore::Output::find("shaft-power").unwrap();
    let said = chart(&table, &[shaft]).unwrap_err().to_string();
    assert!(said.contains("does not know shaft-power; it knows speed, indicated-power"), "{said}");
    let gases = run(&[("engine.gas", "air, helium", 2)]);
    assert!(chart(&gases, &[]).unwrap_err().to_string().contains("needs an input that is a number"));
    let share = sweep(&STROKES).run(Shard::new(1, 2).unwrap(), &|| ());
    assert!(chart(&share, &[]).unwrap_err().to_string().contains("shard 1/2 of a sweep is no chart"));
    let none =
        run(&[("cold_end.temperature", "190 °C..200 °C", 2), ("limits.peak_temperature", "50 °C..60 °C", 2)]);
    assert!(chart(&none, &[]).unwrap_err().to_string().contains("all points are refused"));
}

#[test]
fn the_full_model_fills_the_power_at_the_shaft() {
    let done = explore(&[PUMP, "--over", "piston.stroke=24 mm..32 mm", "--steps", "2"]);
    let shown = text(&done.stdout);
    let mut reader = csv::Reader::from_reader(shown.split_once('\n').unwrap().1.as_bytes());
    let head = reader.headers().unwrap().clone();
    let column = |name: &str| head.iter().position(|head| head == name).expect(name);
    for row in reader.records().map(Result::unwrap) {
        let number = |name: &str| row[column(name)].parse::<f64>().unwrap();
        assert_eq!(&row[column("model")], "full");
        assert!(number("shaft-power [W]") < number("indicated-power [W]"), "friction takes its share");
    }
}
