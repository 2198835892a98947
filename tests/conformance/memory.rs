//! Whatever definitions are asked for, and however often: the memory stays. Measured in a process of its own, on Linux.

#![cfg(target_os = "linux")]

use std::process::Command;

use gatepost_core::earth::{Grid, System};
use gatepost_core::measure::Point;

/// Rounds after the first two, in which nothing may grow.
const ROUNDS: usize = 3;
/// Refused definitions of each sort.
const REFUSED: usize = 100;
/// What the allocator may hold beside, kilobytes.
const SLACK_KB: i64 = 3_000;
/// What all grids at hand may hold, kilobytes.
const MOST_HELD_KB: i64 = 160_000;
const NAME: &str = "memory::rounds_of_definitions";

/// Pages of 4 kB in memory, by the kernel's own count (proc(5), `statm`).
fn resident_kb() -> i64 {
    let counts = std::fs::read_to_string("/proc/self/statm").unwrap();
    counts.split_whitespace().nth(1).unwrap().parse::<i64>().unwrap() * 4
}

/// Numbers that no register has, each after something that PROJ was asked for and that was dropped.
fn ask_numbers() {
    for number in 0..REFUSED {
        assert!(System::named("+proj=longlat +datum=WGS84").is_ok());
        assert!(Grid::named("+proj=longlat +datum=WGS84").is_err());
        assert!(Grid::named(&format!("EPSG:{}", 40_000 + number)).is_err());
        assert!(System::named(&format!("EPSG:{}", 40_000 + number)).is_err());
    }
}

/// No grids, of every sort that PROJ has to be asked for: codes, PROJ strings, well-known text, PROJJSON, long ones, the moon.
fn refused(number: usize) -> [String; 6] {
    [
        format!("EPSG:{}", 90_000 + number),
        format!("+proj=none{number}"),
        format!("PROJCS[{number}]"),
        format!("{{\"type\":{number}}}"),
        format!("+proj=none{number} {}", "+no_defs ".repeat(300)),
        format!("+proj=merc +R=1737{number:03}"),
    ]
}

fn ask_refused() {
    for definition in (0..REFUSED).flat_map(refused) {
        assert!(Grid::named(&definition).is_err() && System::named(&definition).is_err(), "{definition}");
    }
}

/// More grids than stay at hand.
fn ask_known() {
    for code in (32601..=32660).chain(25828..=25835).chain(26701..=26722) {
        let grid = Grid::named(&format!("EPSG:{code}")).unwrap();
        assert!(grid.unproject(Point::new(500_000.0, 5_000_000.0)).is_ok(), "{code}");
    }
}

/// What two rounds take, and what the others add, kilobytes. In the second the shelf of grids has found its size.
fn rounds(ask: impl Fn()) -> [i64; 2] {
    let before = resident_kb();
    ask();
    ask();
    let first = resident_kb();
    (0..ROUNDS).for_each(|_| ask());
    [first - before, resident_kb() - first]
}

#[test]
fn memory_stays_however_often_grids_are_asked_for() {
    let child = Command::new(std::env::current_exe().unwrap()).args(["--exact", NAME, "--ignored", "--nocapture"]).output().unwrap();
    let told = String::from_utf8_lossy(&child.stdout).into_owned();
    assert!(child.status.success(), "{told}{}", String::from_utf8_lossy(&child.stderr));
    let figures = |name: &str| {
        let line = told.lines().find_map(|line| line.split_once(name)).unwrap_or_else(|| panic!("no {name} in {told}")).1;
        line.split_whitespace().map(|figure| figure.parse::<i64>().unwrap()).collect::<Vec<_>>()
    };
    let (refused, known) = (figures("refused kB:"), figures("known kB:"));
    assert!(refused[1] < SLACK_KB, "refused definitions, in {ROUNDS} more rounds: {refused:?} kB");
    assert!(known[1] < SLACK_KB, "known grids, in {ROUNDS} more rounds: {known:?} kB");
    let numbers = figures("numbers kB:");
    // One connection to the database may be opened anew in them.
    assert!(numbers[0] < 2 * SLACK_KB && numbers[1] < SLACK_KB, "numbers of no register, the first time and again: {numbers:?} kB");
    assert!(known[0] < MOST_HELD_KB, "as many grids as stay at hand: {known:?} kB");
}

/// The process that is measured.
#[test]
#[ignore = "run by the test above, alone"]
#[allow(clippy::print_stdout, reason = "the test above reads it")]
fn rounds_of_definitions() {
    assert!(Grid::named("EPSG:32633").is_ok() && Grid::named("+proj=longlat +datum=WGS84").is_err());
    let [numbers, again] = rounds(ask_numbers);
    println!("\nnumbers kB: {numbers} {again}");
    let [refused, again] = rounds(ask_refused);
    println!("\nrefused kB: {refused} {again}");
    let [known, again] = rounds(ask_known);
    println!("\nknown kB: {known} {again}");
}
