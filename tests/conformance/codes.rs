//! The numbers of systems that the core shows to PROJ are those of PROJ's own database, the one that is built into the library.

use std::path::PathBuf;

use gatepost_conformance::root;
use rusqlite::Connection;

const TABLE: &str = "core/src/earth/grid/codes.txt";

/// `proj.db` as `proj-sys` built it, beside this test: target/PROFILE/build/proj-sys-*/out/build/data.
fn database() -> PathBuf {
    let profile = std::env::current_exe().unwrap().parent().unwrap().parent().unwrap().join("build");
    let built = std::fs::read_dir(&profile).unwrap().map(|entry| entry.unwrap().path().join("out/build/data/proj.db"));
    built.filter(|path| path.exists()).max_by_key(|path| path.metadata().and_then(|file| file.modified()).unwrap()).unwrap()
}

/// Numbers as runs, names as they are.
fn runs(mut codes: Vec<String>) -> String {
    let numbers: Option<Vec<u32>> = codes.iter().map(|code| code.parse().ok()).collect();
    let Some(mut numbers) = numbers else {
        codes.sort();
        return codes.join(" ");
    };
    numbers.sort_unstable();
    let told = |run: &[u32]| match run {
        [one] => one.to_string(),
        run => format!("{}-{}", run[0], run[run.len() - 1]),
    };
    numbers.chunk_by(|a, b| a + 1 == *b).map(told).collect::<Vec<_>>().join(" ")
}

/// The table as the database gives it; systems of other bodies of the sky have authorities of their own there.
fn table() -> String {
    let database = Connection::open(database()).unwrap();
    let codes = |authority: &str, types: &str| {
        let query = format!("select cast(code as text) from crs_view where auth_name = ?1 and type in ({types})");
        let mut statement = database.prepare(&query).unwrap();
        statement.query_map([authority], |row| row.get(0)).unwrap().map(Result::unwrap).collect::<Vec<String>>()
    };
    let sorts = [("flat", "'projected', 'geographic 2D'"), ("heights", "'vertical'")];
    let other = ("other", "'compound', 'engineering', 'geocentric', 'geographic 3D'");
    let mut told = String::new();
    for authority in ["EPSG", "ESRI", "IGNF", "OGC"] {
        for (sort, types) in sorts.iter().chain([&other]) {
            let codes = codes(authority, types);
            if !codes.is_empty() {
                told += &format!("{authority} {sort} {}\n", runs(codes));
            }
        }
    }
    told
}

#[test]
fn the_numbers_of_systems_are_those_of_proj() {
    let (held, wanted) = (std::fs::read_to_string(root().join(TABLE)).unwrap_or_default(), table());
    let made = root().join("tests/out/codes.txt");
    std::fs::create_dir_all(made.parent().unwrap()).unwrap();
    std::fs::write(&made, &wanted).unwrap();
    assert!(held == wanted, "PROJ's database has other numbers than {TABLE}: look at tests/out/codes.txt and copy it there.");
    assert!(wanted.contains("EPSG flat ") && wanted.len() > 10_000, "the database is that of PROJ");
}
