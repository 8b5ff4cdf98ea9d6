//! The program as its users meet it: exit codes, stdout and stderr, colour, pipes.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn swept(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_swept"));
    command.args(arguments).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE").env_remove("CLICOLOR");
    command
}

fn run(arguments: &[&str]) -> Output {
    swept(arguments).stdin(Stdio::null()).output().unwrap()
}

fn run_with_input(arguments: &[&str], input: &[u8]) -> Output {
    let mut child =
        swept(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn starter() -> String {
    text(&run(&["new", "-"]).stdout).to_string()
}

fn broken(name: &str) -> String {
    format!("{}/tests/broken-designs/{name}.toml", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn new_writes_a_design_that_check_likes_and_never_overwrites() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("My Fan.toml");
    let path = path.to_str().unwrap();
    let new = run(&["new", path]);
    assert_eq!((code(&new), text(&new.stdout)), (0, ""));
    let before = std::fs::read(path).unwrap();
    let again = run(&["new", path]);
    assert_eq!(code(&again), 3);
    assert!(text(&again.stderr).contains("is left alone"));
    assert_eq!(std::fs::read(path).unwrap(), before);
    let check = run(&["check", path]);
    assert_eq!((code(&check), text(&check.stdout)), (0, ""));
    assert!(text(&check.stderr).starts_with("my-fan: the file is sound"), "{}", text(&check.stderr));
}

#[test]
fn new_into_a_folder_that_is_not_there_ends_with_3() {
    assert_eq!(code(&run(&["new", "/no/such/folder/x.toml"])), 3);
}

#[test]
fn a_design_is_read_from_stdin_and_overridden() {
    let good = run_with_input(&["check", "-"], starter().as_bytes());
    assert_eq!(code(&good), 0, "{}", text(&good.stderr));
    let bad = run_with_input(&["check", "-", "--set", "piston.stroke=28"], starter().as_bytes());
    assert_eq!(code(&bad), 1);
    assert!(text(&bad.stderr).contains("--set:1:15") && text(&bad.stderr).contains("write \"28 mm\""));
}

#[test]
fn a_wrong_design_ends_with_1_and_shows_the_place() {
    let output = run(&["check", &broken("metres-instead-of-millimetres")]);
    assert_eq!((code(&output), text(&output.stdout)), (1, ""));
    let shown = text(&output.stderr);
    assert!(shown.contains("metres-instead-of-millimetres.toml:10:10"), "{shown}");
    assert!(shown.contains("length = \"28 m\"") && shown.contains("^^^^^^ 28 m is too large"), "{shown}");
    assert!(shown.contains("= hint: did you mean \"28 mm\"?"), "{shown}");
}

#[test]
fn three_mistakes_are_three_messages() {
    let output = run(&["check", &broken("three-mistakes-in-one-file")]);
    assert_eq!(text(&output.stderr).matches("error[swept::").count(), 3);
}

#[test]
fn quiet_silences_notes_but_not_errors() {
    let quiet = run_with_input(&["check", "-q", "-"], starter().as_bytes());
    assert_eq!((code(&quiet), text(&quiet.stderr)), (0, ""));
    let wrong = run(&["-q", "check", &broken("unknown-key")]);
    assert!(text(&wrong.stderr).contains("did you mean `length`?"));
}

#[test]
fn verbose_says_the_defaults_out_loud() {
    let output = run_with_input(&["check", "-v", "-"], starter().as_bytes());
    assert!(text(&output.stderr).contains("default: drive.lead = \"90°\""), "{}", text(&output.stderr));
}

#[test]
fn a_file_that_cannot_be_read_ends_with_3() {
    let missing = run(&["check", "no-such-design.toml"]);
    assert_eq!(code(&missing), 3);
    assert!(text(&missing.stderr).contains("could not read no-such-design.toml"));
    assert_eq!(code(&run(&["check", env!("CARGO_MANIFEST_DIR")])), 3, "a folder is not a design");
}

#[test]
fn a_wrong_command_line_ends_with_2() {
    for arguments in
        [&["chekc"][..], &[], &["check"], &["check", "x", "--colour"], &["check", "-", "--set", "a"]]
    {
        assert_eq!(code(&run(arguments)), 2, "{arguments:?}");
    }
    assert!(text(&run(&["chekc"]).stderr).contains("check"));
    let layout = run(&["new", "-", "--layout", "delta"]);
    assert_eq!(code(&layout), 2);
    assert!(text(&layout.stderr).contains("gamma-twin-crank"));
}

#[test]
fn help_is_on_stdout_with_examples_first_and_short_help_on_one_screen() {
    for arguments in [&["-h"][..], &["--help"], &["new", "--help"], &["check", "-h"], &["schema", "-h"]] {
        let output = run(arguments);
        let shown = text(&output.stdout);
        assert_eq!(code(&output), 0);
        assert!(shown.starts_with("Example"), "{arguments:?}: {shown}");
        assert!(
            shown.lines().count() <= 40 && shown.lines().all(|line| line.chars().count() <= 100),
            "{shown}"
        );
    }
    assert_eq!(text(&run(&["--version"]).stdout), concat!("swept ", env!("CARGO_PKG_VERSION"), "\n"));
}

#[test]
fn colour_changes_nothing_but_colour() {
    let path = broken("unknown-key");
    let shown = |arguments: &[&str], variable: Option<(&str, &str)>| {
        let mut command = swept(arguments);
        command.envs(variable).stdin(Stdio::null());
        text(&command.output().unwrap().stderr).to_string()
    };
    let plain = shown(&["check", &path], None);
    assert!(!plain.contains('\u{1b}'));
    assert_eq!(shown(&["check", &path, "--color", "never"], Some(("CLICOLOR_FORCE", "1"))), plain);
    assert_eq!(shown(&["check", &path], Some(("NO_COLOR", "1"))), plain);
    assert_eq!(shown(&["check", &path], Some(("TERM", "dumb"))), plain);
    for coloured in [
        shown(&["check", &path, "--color=always"], Some(("NO_COLOR", "1"))),
        shown(&["check", &path], Some(("CLICOLOR_FORCE", "1"))),
    ] {
        assert!(coloured.contains('\u{1b}'));
        assert_eq!(anstream::adapter::strip_str(&coloured).to_string(), plain);
    }
}

#[test]
fn the_schema_is_one_json_document_on_stdout() {
    let output = run(&["schema"]);
    assert_eq!((code(&output), text(&output.stderr)), (0, ""));
    let schema: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(schema["type"], "object");
    assert_eq!(run(&["schema"]).stdout, output.stdout, "the same bytes every time");
}

#[cfg(unix)]
#[test]
fn a_reader_that_goes_away_is_no_mistake() {
    for command in ["schema", "new -", "--help"] {
        // The reader is gone before the program begins to write.
        let program = env!("CARGO_BIN_EXE_swept");
        let line = format!("(sleep 0.2; {program} {command}) | true; echo ${{PIPESTATUS[0]}}");
        let output = Command::new("bash").args(["-c", &line]).output().unwrap();
        assert_eq!((text(&output.stdout), text(&output.stderr)), ("0\n", ""), "{command}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_ends_with_3() {
    if !Path::new("/dev/full").exists() {
        return;
    }
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = swept(&["schema"]).stdout(full).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(code(&output), 3);
    assert!(text(&output.stderr).contains("could not write"));
}

#[test]
fn every_broken_design_ends_with_1_and_shows_all_its_places() {
    for entry in std::fs::read_dir(broken("x").trim_end_matches("/x.toml")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "expect") {
            continue;
        }
        let output = run(&["check", path.with_extension("toml").to_str().unwrap()]);
        let shown = text(&output.stderr);
        assert_eq!(code(&output), 1, "{}: {shown}", path.display());
        assert!(!shown.chars().any(|c| c.is_control() && c != '\n'), "{}: {shown:?}", path.display());
        for line in std::fs::read_to_string(&path).unwrap().lines() {
            let words: Vec<&str> = line.splitn(3, ' ').collect();
            let place = format!(".toml:{}", words[1]);
            assert!(
                shown.contains(words[0]) && shown.contains(&place),
                "{}: {place}: {shown}",
                path.display()
            );
        }
    }
}
