//! Text, Markdown, CSV and calendar files, each read back by a reader that is not ours.

use calcard::icalendar::{ICalendarComponentType, ICalendarProperty, ICalendarValue};
use catchcrop::paper::{
    Form, Format, Leaf, Paper, Records, Sheet, Stamp, calendar, csv, markdown, print, text,
};

use super::{demo, sheets};

fn stamp(alarm: Option<u8>) -> Stamp {
    let made = demo::date(90).and_hms_opt(6, 30, 0).unwrap();
    Stamp { garden: "Larch Court; boxes, pots".to_owned(), key: "larch-court".to_owned(), made, alarm }
}

fn read(words: &str) -> calcard::icalendar::ICalendar {
    let entry = calcard::Parser::new(words).entry();
    let calcard::Entry::ICalendar(calendar) = entry else { panic!("not a calendar: {entry:?}") };
    calendar
}

fn value(part: &calcard::icalendar::ICalendarComponent, name: &ICalendarProperty) -> Option<String> {
    let entry = part.entries.iter().find(|e| e.name == *name)?;
    let value = entry.values.first()?;
    if let ICalendarValue::PartialDateTime(d) = value {
        return Some(format!("{:04}-{:02}-{:02}", d.year?, d.month?, d.day?));
    }
    if let ICalendarValue::Text(words) = value { Some(words.clone()) } else { None }
}

#[test]
fn a_calendar_reads_back_with_its_dates() {
    let mut jobs = demo::jobs(5);
    jobs.weeks[0].jobs[0].why =
        "Soil is warm; water, cover \\ wait. ".repeat(6) + "\nNa\u{ef}ve \u{1f345} line";
    let season = demo::season(3);
    let words = calendar(&jobs, Some(&season), &stamp(None));
    assert_eq!(words, calendar(&jobs, Some(&season), &stamp(None)), "equal plans give equal files");
    for line in words.split("\r\n") {
        assert!(line.len() <= 75 && !line.contains('\n'), "'{line}'");
    }
    if let Ok(folder) = std::env::var("CATCHCROP_PAPER_OUT") {
        std::fs::write(format!("{folder}/jobs.ics"), &words).unwrap();
        std::fs::write(format!("{folder}/plantings.csv"), csv(&season.records()).unwrap()).unwrap();
    }
    let read = read(&words);
    let todos: Vec<_> =
        read.components.iter().filter(|c| c.component_type == ICalendarComponentType::VTodo).collect();
    let events: Vec<_> =
        read.components.iter().filter(|c| c.component_type == ICalendarComponentType::VEvent).collect();
    let given: Vec<_> = jobs.weeks.iter().flat_map(|w| &w.jobs).collect();
    assert_eq!(todos.len(), given.len());
    assert_eq!(events.len(), season.beds.iter().flat_map(|b| &b.lanes).map(|l| l.bars.len()).sum::<usize>());
    for (todo, job) in todos.iter().zip(&given) {
        assert_eq!(value(todo, &ICalendarProperty::Summary).unwrap(), job.what);
        assert_eq!(value(todo, &ICalendarProperty::Location).unwrap(), job.place);
        assert_eq!(value(todo, &ICalendarProperty::Dtstart).unwrap(), job.from.to_string());
        assert_eq!(value(todo, &ICalendarProperty::Due).unwrap(), job.to.to_string());
        assert!(todo.component_ids.is_empty(), "no alarm unless asked");
    }
    let about = value(todos[0], &ICalendarProperty::Description).unwrap();
    assert!(about.contains(&given[0].why), "{about}");
    let bar = &season.beds[0].lanes[0].bars[0];
    let (from, to) = bar.pick.unwrap();
    assert_eq!(value(events[0], &ICalendarProperty::Dtstart).unwrap(), from.to_string());
    let after = catchcrop::calendar::plus(to, 1).to_string();
    assert_eq!(value(events[0], &ICalendarProperty::Dtend).unwrap(), after, "DTEND is the day after");
    let mut uids: Vec<_> = read.components.iter().filter_map(|c| value(c, &ICalendarProperty::Uid)).collect();
    let all = uids.len();
    uids.sort();
    uids.dedup();
    assert_eq!(uids.len(), all, "no two entries share a UID");
    assert_eq!(all, todos.len() + events.len());
}

#[test]
fn a_moved_job_keeps_its_uid() {
    let jobs = demo::jobs(3);
    let mut later = jobs.clone();
    for job in later.weeks.iter_mut().flat_map(|w| &mut w.jobs) {
        job.from = catchcrop::calendar::plus(job.from, 9);
        job.to = catchcrop::calendar::plus(job.to, 9);
    }
    let uids = |words: String| -> Vec<String> {
        words.lines().filter(|l| l.starts_with("UID")).map(str::to_owned).collect()
    };
    assert_eq!(uids(calendar(&jobs, None, &stamp(None))), uids(calendar(&later, None, &stamp(None))));
}

#[test]
fn alarms_only_when_asked() {
    let jobs = demo::jobs(3);
    let open = jobs.weeks.iter().flat_map(|w| &w.jobs).count();
    let words = calendar(&jobs, None, &stamp(Some(8)));
    assert_eq!(words.matches("BEGIN:VALARM").count(), open);
    assert!(words.contains("TRIGGER:PT8H"));
    let read = read(&words);
    let todo = read
        .components
        .iter()
        .find(|c| c.component_type == ICalendarComponentType::VTodo && !c.component_ids.is_empty());
    assert!(todo.is_some(), "the reader finds the alarm inside its job");
}

/// The JSON of sheets holds what their CSV holds, and the schema beside it describes it: every row has the columns it
/// names and no others.
#[test]
fn json_comes_with_its_schema() {
    use catchcrop::paper::{Form, Leaf, print};
    let leaves = [Leaf::Jobs(demo::jobs(2)), Leaf::Labels(sheets::labels(3)), Leaf::Needs(sheets::needs())];
    let form = Form::of("json").unwrap();
    let out = print(&leaves, form, &demo::imprint(catchcrop::paper::Paper::A4), &stamp(None)).unwrap();
    assert_eq!(out.files.iter().map(|f| f.suffix.as_str()).collect::<Vec<_>>(), ["", "-schema"]);
    let read = |n: usize| serde_json::from_slice::<serde_json::Value>(&out.files[n].bytes).unwrap();
    let (value, schema) = (read(0), read(1));
    let records = demo::jobs(2).records();
    let rows = value["sheets"]["jobs"].as_array().unwrap();
    assert_eq!(rows.len(), records.rows.len());
    assert_eq!(rows[0]["what"].as_str().unwrap(), records.rows[0][2]);
    for sheet in ["jobs", "labels", "needs"] {
        let items = &schema["properties"]["sheets"]["properties"][sheet]["items"];
        let named: Vec<&str> =
            items["required"].as_array().unwrap().iter().filter_map(|v| v.as_str()).collect();
        for row in value["sheets"][sheet].as_array().unwrap() {
            let row = row.as_object().unwrap();
            assert_eq!(row.len(), named.len(), "{sheet}");
            assert!(named.iter().all(|n| row[*n].is_string() && items["properties"][*n]["type"] == "string"));
        }
    }
}

/// A second reader of calendars and of CSV, in Python, where it is there: it must find every entry without an error.
#[test]
fn python_reads_the_calendar_and_the_csv() {
    let script = r#"
import csv, io, sys
import icalendar
folder = sys.argv[1]
cal = icalendar.Calendar.from_ical(open(folder + "/yard.ics", "rb").read())
todo = [c for c in cal.walk("VTODO")]
event = [c for c in cal.walk("VEVENT")]
bad = [e for c in cal.walk() for e in c.errors]
assert not bad, bad
assert all(c["DUE"].dt >= c["DTSTART"].dt for c in todo)
assert all(c["DTEND"].dt > c["DTSTART"].dt for c in event)
assert len({str(c["UID"]) for c in todo + event}) == len(todo) + len(event)
try:
    import vobject
    second = vobject.readOne(open(folder + "/yard.ics", encoding="utf-8", newline="").read())
    assert len(second.contents["vtodo"]) == len(todo)
except ImportError:
    print("vobject is not there: skipped", file=sys.stderr)
rows = list(csv.reader(io.StringIO(open(folder + "/yard.csv", encoding="utf-8", newline="").read()), strict=True))
print(len(todo), len(event), len(rows), len(rows[0]))
"#;
    let folder = tempfile::tempdir().unwrap();
    let (jobs, season) = (demo::jobs(8), demo::season(12));
    std::fs::write(folder.path().join("yard.ics"), calendar(&jobs, Some(&season), &stamp(Some(8)))).unwrap();
    let records = jobs.records();
    std::fs::write(folder.path().join("yard.csv"), csv(&records).unwrap()).unwrap();
    let out = std::process::Command::new("python3").arg("-c").arg(script).arg(folder.path()).output();
    let Ok(out) = out else {
        println!("python3 is not there: skipped");
        return;
    };
    let said = String::from_utf8_lossy(&out.stderr);
    if said.contains("ModuleNotFoundError") {
        println!("python3 has no icalendar: skipped");
        return;
    }
    assert!(out.status.success(), "{said}");
    let todo = jobs.weeks.iter().map(|w| w.jobs.len()).sum::<usize>();
    let counts: Vec<usize> =
        String::from_utf8_lossy(&out.stdout).split_whitespace().map(|n| n.parse().unwrap()).collect();
    assert_eq!((counts[0], counts[2], counts[3]), (todo, records.rows.len() + 1, records.columns.len()));
    assert!(counts[1] > 0);
}

/// Reads CSV with the crate's reader in its strictest setting.
fn back(words: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(words.as_bytes());
    reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect()
}

#[test]
fn csv_reads_back_equal() {
    let all = [
        demo::jobs(6).records(),
        demo::season(5).records(),
        sheets::ground(&[14, 24]).records(),
        sheets::kitchen(9).records(),
        sheets::needs().records(),
        sheets::record(6, 4).records(),
        sheets::labels(7).records(),
        sheets::summary(12).records(),
    ];
    for records in all {
        let words = csv(&records).unwrap();
        assert!(words.split("\r\n").all(|l| !l.contains('\n')), "lines end in CRLF");
        let rows = back(&words);
        assert_eq!(rows[0], records.columns);
        assert_eq!(rows[1..], records.rows);
    }
    let hard = Records {
        columns: &["a", "b"],
        rows: vec![
            vec!["comma, \"quote\"".to_owned(), "two\nlines".to_owned()],
            vec![String::new(), "\u{e9} \u{1f345}".to_owned()],
        ],
    };
    assert_eq!(back(&csv(&hard).unwrap())[1..], hard.rows);
}

#[test]
fn csv_runs_no_formula() {
    let risky = ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\u{ff1d}1"];
    let records = Records { columns: &["cell"], rows: risky.iter().map(|c| vec![(*c).to_owned()]).collect() };
    for (row, cell) in back(&csv(&records).unwrap())[1..].iter().zip(risky) {
        assert_eq!(row[0], format!("'{cell}"));
    }
    let calm = ["-2.5", "1e3", "carrot", "a=b", "+4", "\u{2013}5"];
    let records = Records { columns: &["cell"], rows: calm.iter().map(|c| vec![(*c).to_owned()]).collect() };
    for (row, cell) in back(&csv(&records).unwrap())[1..].iter().zip(calm) {
        assert_eq!(row[0], cell, "numbers and words stay as they are");
    }
}

#[test]
fn columns_are_a_promise() {
    let promised = [
        (
            demo::season(0).records(),
            "id place cells crop code family amount kind start sown in_place_from first_pick last_pick cleared",
        ),
        (demo::jobs(0).records(), "id week what place cells amount from to minutes why"),
        (sheets::ground(&[]).records(), "week place cells crop code family amount stage layer"),
        (sheets::kitchen(0).records(), "crop week from to amount unit"),
        (sheets::needs().records(), "part what amount detail by"),
        (sheets::record(0, 0).records(), "soil year known crop family cells from to"),
        (sheets::pickings().records(), "date crop place cells amount unit words"),
        (sheets::labels(0).records(), "crop botanical place code lines"),
        (sheets::summary(12).records(), "wish wanted met share reason"),
    ];
    for (records, columns) in promised {
        assert_eq!(records.columns.join(" "), columns);
    }
}

#[test]
fn text_and_markdown_of_a_season() {
    let imprint = demo::imprint(Paper::A4);
    let season = demo::season(2);
    insta::assert_snapshot!("season_text", text(&season.grids(), &imprint));
    insta::assert_snapshot!("jobs_markdown", markdown(&demo::jobs(3).grids(), &imprint));
    let mut grids = sheets::needs().grids();
    grids.extend(sheets::kitchen(4).grids());
    grids.extend(sheets::record(2, 3).grids());
    grids.extend(sheets::summary(12).grids());
    insta::assert_snapshot!("lists_text", text(&grids, &imprint));
}

/// Every sheet with invented content.
fn leaves() -> Vec<Leaf> {
    vec![
        Leaf::Year(sheets::summary(12)),
        Leaf::Weeks(demo::season(4)),
        Leaf::Ground(sheets::ground(&[20])),
        Leaf::Seasons(sheets::ground(&[14, 24, 34, 44])),
        Leaf::Jobs(demo::jobs(5)),
        Leaf::Kitchen(sheets::kitchen(6)),
        Leaf::Needs(sheets::needs()),
        Leaf::Record(sheets::record(5, 4)),
        Leaf::Pickings(sheets::pickings()),
        Leaf::Labels(sheets::labels(9)),
    ]
}

#[test]
fn every_sheet_in_every_form() {
    let leaves = leaves();
    let bound: Vec<_> = leaves.iter().map(Leaf::sheet).collect();
    assert_eq!(bound, Sheet::ALL, "the test has every sheet, in the order of binding");
    let imprint = demo::imprint(Paper::A4);
    for ending in ["pdf", "svg", "png", "ics", "csv", "json", "md", "txt"] {
        let form = Form::of(ending).unwrap();
        let made = print(&leaves, form, &imprint, &stamp(None)).unwrap();
        assert!(made.files.iter().all(|f| f.bytes.len() > 60), "{ending}");
        assert_eq!(made.missing, []);
        let mut names: Vec<_> = made.files.iter().map(|f| f.suffix.as_str()).collect();
        match ending {
            "svg" | "png" => assert!(names.len() >= 10 && names[1] == "-2", "{names:?}"),
            "csv" => assert!(names.contains(&"-jobs") && names.len() == 10, "{names:?}"),
            "json" => assert_eq!(names, ["", "-schema"]),
            _ => assert_eq!(names, [""]),
        }
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), made.files.len(), "no two files share a name");
    }
}

#[test]
fn one_sheet_is_one_file() {
    let leaves = [Leaf::Needs(sheets::needs())];
    let imprint = demo::imprint(Paper::Letter);
    let made = print(&leaves, Form::Csv, &imprint, &stamp(None)).unwrap();
    assert_eq!(made.files.len(), 1);
    assert_eq!(made.files[0].suffix, "");
    let refused = print(&leaves, Form::Calendar, &imprint, &stamp(None)).unwrap_err().to_string();
    assert!(refused.contains("'jobs' and 'weeks'"), "{refused}");
    for form in [Form::Text, Form::Csv, Form::Pages(Format::Pdf)] {
        let refused = print(&[], form, &imprint, &stamp(None)).unwrap_err().to_string();
        assert!(refused.contains("nothing to print"), "{refused}");
    }
}

#[test]
fn words_of_sheets_and_endings() {
    for sheet in Sheet::ALL {
        assert_eq!(sheet.word().parse::<Sheet>().unwrap(), sheet);
        assert!(!sheet.about().is_empty());
    }
    let refused = "timetable".parse::<Sheet>().unwrap_err();
    assert!(refused.contains("timetable") && refused.contains("weeks, ground"), "{refused}");
    assert!(Form::of("docx").unwrap_err().contains("pdf, svg, png"));
    assert_eq!(Form::of("PDF").unwrap(), Form::Pages(Format::Pdf));
}
