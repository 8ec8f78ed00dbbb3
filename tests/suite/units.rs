//! Quantities and the calendar: text in, text out, and arithmetic that comes back.

use catchcrop::calendar::{ClimateDay, Date, MonthDay, Season, Week, days_between, plus, read_date};
use catchcrop::units::{
    Amount, CountWord, Degrees, Length, LengthUnit, Mass, MassUnit, TempUnit, Temperature, Volume, VolumeUnit,
};
use proptest::prelude::*;

#[test]
fn lengths_are_exact_in_both_measures() {
    let foot: Length = "1 ft".parse().unwrap();
    let inches: Length = "12 in".parse().unwrap();
    assert_eq!(foot.um(), inches.um());
    assert_eq!("1 in".parse::<Length>().unwrap().um(), 25_400);
    assert_eq!("1 1/2 in".parse::<Length>().unwrap().um(), 38_100);
    assert_eq!("4ft".parse::<Length>().unwrap().to_string(), "4 ft");
    assert_eq!("30 cm".parse::<Length>().unwrap().to_string(), "30 cm");
    assert_eq!("10 gal".parse::<Volume>().unwrap().litres().round(), 38.0);
    assert_eq!("453.59237 g".parse::<Mass>().unwrap().mg(), "1 lb".parse::<Mass>().unwrap().mg());
}

#[test]
fn temperatures_and_their_differences_are_two_things() {
    assert!(("32 F".parse::<Temperature>().unwrap().celsius()).abs() < 1e-9);
    assert!(("+9 F".parse::<Degrees>().unwrap().celsius() - 5.0).abs() < 1e-9);
    assert_eq!("77 F".parse::<Temperature>().unwrap().to_string(), "77 F");
}

#[test]
fn nonsense_is_refused_with_an_example() {
    for text in ["", "ten in", "4", "4 parsec", "1/0 in", "4 5 in", "nan cm", "- in"] {
        let error = text.parse::<Length>().unwrap_err().to_string();
        assert!(error.contains("25 cm"), "{text}: {error}");
    }
    assert!("3 wheelbarrows".parse::<Amount>().is_err());
    assert!("-3 heads".parse::<Amount>().is_err());
    assert!(read_date("2027-02-30").is_err());
    assert!("13-01".parse::<MonthDay>().is_err());
}

#[test]
fn amounts_speak_of_heads_and_grams() {
    assert_eq!("3 heads".parse::<Amount>().unwrap(), Amount::count(3.0, CountWord::Head));
    assert_eq!("1 bunch".parse::<Amount>().unwrap().to_string(), "1 bunch");
    assert_eq!("2.5 lb".parse::<Amount>().unwrap().to_string(), "2.5 lb");
}

// ISO 8601: 1 January 2027 is a Friday in week 53 of 2026; 2020 has 53 weeks.
#[test]
fn weeks_follow_iso_8601() {
    let day = |t: &str| read_date(t).unwrap();
    assert_eq!(Week::of(day("2027-01-01")).to_string(), "2026-W53");
    assert_eq!(Week::of(day("2027-01-04")).to_string(), "2027-W01");
    assert_eq!(Week::of(day("2020-12-31")).to_string(), "2020-W53");
    assert_eq!(Week::of(day("2027-05-12")).monday(), day("2027-05-10"));
}

#[test]
fn seasons_begin_where_the_site_begins() {
    let day = |t: &str| read_date(t).unwrap();
    let january = MonthDay::new(1, 1).unwrap();
    let july = MonthDay::new(7, 1).unwrap();
    assert_eq!(Season::holding(day("2027-05-12"), january).to_string(), "2027");
    let south = Season::holding(day("2027-05-12"), july);
    assert_eq!(south.to_string(), "2026/27");
    assert_eq!(south.last(), day("2027-06-30"));
    assert!(south.holds(day("2026-12-31")) && south.holds(day("2027-01-01")));
    assert_eq!(south.plus(1).first(), day("2027-07-01"));
}

#[test]
fn leap_days_read_as_the_day_before() {
    let leap = read_date("2028-02-29").unwrap();
    assert_eq!(ClimateDay::of(leap), ClimateDay::of(read_date("2028-02-28").unwrap()));
    assert_eq!(ClimateDay::of(read_date("2028-12-31").unwrap()).index(), 364);
    // 5 May 2028 - 93 days, and the same in a common year (date arithmetic across a leap day).
    assert_eq!(plus(read_date("2028-05-05").unwrap(), -93), read_date("2028-02-02").unwrap());
    assert_eq!(plus(read_date("2027-05-05").unwrap(), -93), read_date("2027-02-01").unwrap());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn printed_quantities_read_back(base in -1_000_000_000_i64..1_000_000_000, which in 0_usize..5) {
        let length = Length::from_base(base, LengthUnit::ALL[which % LengthUnit::ALL.len()]);
        prop_assert_eq!(length.to_string().parse::<Length>().unwrap(), length);
        let volume = Volume::from_base(base, VolumeUnit::ALL[which % VolumeUnit::ALL.len()]);
        prop_assert_eq!(volume.to_string().parse::<Volume>().unwrap(), volume);
        let mass = Mass::from_base(base, MassUnit::ALL[which % MassUnit::ALL.len()]);
        prop_assert_eq!(mass.to_string().parse::<Mass>().unwrap(), mass);
    }

    #[test]
    fn printed_temperatures_read_back(value in -90.0_f64..150.0, fahrenheit in any::<bool>()) {
        let unit = if fahrenheit { TempUnit::F } else { TempUnit::C };
        let temperature = Temperature::new(value, unit);
        prop_assert_eq!(temperature.to_string().parse::<Temperature>().unwrap(), temperature);
        let degrees = Degrees::new(value, unit);
        prop_assert_eq!(degrees.to_string().parse::<Degrees>().unwrap(), degrees);
    }

    #[test]
    fn printed_amounts_read_back(milli in 0_i64..10_000_000) {
        let amount = Amount::Count(milli, CountWord::Stem);
        prop_assert_eq!(amount.to_string().parse::<Amount>().unwrap(), amount);
    }

    #[test]
    fn adding_then_subtracting_comes_home(start in 0_i64..80_000, days in -20_000_i64..20_000) {
        let date = plus(Date::from_ymd_opt(1990, 1, 1).unwrap(), start);
        prop_assert_eq!(plus(plus(date, days), -days), date);
        prop_assert_eq!(days_between(date, plus(date, days)), days);
        prop_assert!(Week::of(date).holds(date));
        prop_assert_eq!(Week::of(date).plus(days).until(Week::of(date)), -days);
    }

    #[test]
    fn climate_days_come_home(day in 0_i64..365) {
        let day = ClimateDay::new(day);
        prop_assert_eq!(day.month_day().climate_day(), day);
        prop_assert_eq!(ClimateDay::of(day.in_year(2027)), day);
        prop_assert_eq!(day.month_day().to_string().parse::<MonthDay>().unwrap(), day.month_day());
    }

    #[test]
    fn every_day_lies_in_one_season(start in 0_i64..365, day in 0_i64..20_000) {
        let start = ClimateDay::new(start).month_day();
        let date = plus(Date::from_ymd_opt(1990, 1, 1).unwrap(), day);
        let season = Season::holding(date, start);
        prop_assert!(season.holds(date));
        prop_assert!(!season.plus(1).holds(date) && !season.plus(-1).holds(date));
        prop_assert_eq!(plus(season.last(), 1), season.plus(1).first());
    }

    #[test]
    fn no_text_makes_a_quantity_panic(text in ".{0,12}") {
        drop(text.parse::<Length>());
        drop(text.parse::<Amount>());
        drop(text.parse::<Temperature>());
        drop(text.parse::<MonthDay>());
    }
}
