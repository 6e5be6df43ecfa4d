//! Samples: print, reading and reserves.

use super::Samples;
use arcminute_core::Error;
use arcminute_core::print::{
    NRule, Parsed, PointSystem, parse, print_angle, print_for, reduced_snellen, size_of_n, size_of_type,
    typeface,
};
use arcminute_core::reading::shortcuts::{divide_by_three, kestenbaum, n_as_m, steps_of_chart};
use arcminute_core::reading::{
    LinearCurve, LogCurve, Sentence, Trial, accessibility_index, acuity_reserve, characters,
    contrast_reserve, critical_by_share, needed_viewing, plateau, positions, power_from_acuity,
    print_with_reserve, reading_acuity, sentence_speed, series, usual_critical,
};
use arcminute_core::unit::{Angle, Duration, Length, LogContrast, LogMar, PrintSize, ReadingSpeed};

pub(super) fn take(to: &mut Samples) -> Result<(), Error> {
    print(to)?;
    needed(to)?;
    shortcuts(to)?;
    speed(to)?;
    scores(to)
}

fn print(to: &mut Samples) -> Result<(), Error> {
    let forty = Length::from_cm(40.0);
    for text in ["1.6 M", "1.45 mm"] {
        if let Parsed::Understood(print) = parse(text) {
            to.add(&print.size(NRule::Convention)?);
        }
    }
    to.add(&size_of_type(12.0, PointSystem::Desktop, typeface::TIMES.ratio)?);
    to.add(&size_of_n(12.0, NRule::Convention)?);
    to.add(&reduced_snellen(20.0, 50.0, forty)?);
    to.add(&print_angle(PrintSize::from_m_units(1.0), forty)?);
    to.add(&print_for(LogMar::from_log(1.0), forty)?);
    Ok(())
}

fn needed(to: &mut Samples) -> Result<(), Error> {
    let m = PrintSize::from_m_units;
    to.add(&acuity_reserve(m(1.6), m(0.8))?);
    to.add(&contrast_reserve(0.8, LogContrast::from_log(1.05))?);
    to.add(&print_with_reserve(m(0.8), 2.0)?);
    to.add(&needed_viewing(m(4.0), Length::from_cm(40.0), m(1.0), 2.0)?);
    to.add(&power_from_acuity(LogMar::from_log(1.0), m(1.6), 2.0)?);
    Ok(())
}

fn shortcuts(to: &mut Samples) -> Result<(), Error> {
    to.add(&kestenbaum(LogMar::from_log(1.0), PrintSize::from_m_units(1.0), 2.0)?);
    to.add(&divide_by_three(60.0, NRule::Convention)?);
    to.add(&steps_of_chart(8.0)?);
    to.add(&n_as_m(8.0)?);
    Ok(())
}

fn speed(to: &mut Samples) -> Result<(), Error> {
    let (log, arcmin) = (LogMar::from_log, Angle::from_arcmin);
    let greatest = ReadingSpeed::from_words_per_minute(150.0);
    let linear = LinearCurve { greatest, threshold: arcmin(5.0), critical: arcmin(15.0) };
    to.add(&linear.speed_at(arcmin(10.0))?);
    to.add(&linear.size_for(0.8)?);
    let curve = LogCurve { greatest, threshold: log(0.6), rise: 5.0 };
    to.add(&curve.speed_at(log(1.0))?);
    to.add(&curve.size_for(0.8)?);
    to.add(&usual_critical(log(1.0))?);
    Ok(())
}

fn scores(to: &mut Samples) -> Result<(), Error> {
    let seconds = Duration::from_seconds;
    to.add(&sentence_speed(seconds(4.5), 1)?);
    let read = |log, taken| Sentence {
        size: LogMar::from_log(log),
        trial: Trial::Read { time: seconds(taken), errors: 0 },
    };
    let read = series(&[read(1.2, 4.0), read(1.1, 4.2), read(1.0, 4.1), read(0.9, 4.3), read(0.8, 9.0)])?;
    let plateau = plateau(&read).expect("four sizes stand out");
    to.add(&plateau);
    to.add(&critical_by_share(&read, plateau.greatest, 0.8)?.expect("it falls below"));
    to.add(&reading_acuity(12, 4, Length::from_cm(40.0))?);
    let speeds = [150.0, 150.0, 150.0, 150.0, 145.0, 140.0, 130.0, 100.0, 60.0, 20.0];
    to.add(&accessibility_index(speeds.map(ReadingSpeed::from_words_per_minute))?);
    to.add(&characters(Length::from_mm(20.0), PrintSize::from_m_units(1.0))?);
    to.add(&positions(65.0, 10.0, 2.0)?);
    Ok(())
}
