//! Every work that a number here rests on, cited once, and how well each is known.

/// How a value is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Read in the work named.
    Published,
    /// Follows from definitions or geometry; checked by an independent road.
    Derived,
    /// What the trade does; no source.
    CommonPractice,
    /// Remembered from the literature, not looked up again.
    FromMemory,
    /// Chosen here so that a sum can be done; change it if you know better.
    Assumed,
}

/// A work, or the plain statement that there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// Stable key.
    pub id: &'static str,
    /// Author, year, title or place, as a reader needs to find it.
    pub citation: &'static str,
    /// How it is known.
    pub standing: Standing,
}

macro_rules! sources {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $standing:ident, $citation:literal;)+) => {
        $($(#[$meta])* pub static $name: Source =
            Source { id: $id, citation: $citation, standing: Standing::$standing };)+
        /// All of them.
        pub static ALL: &[&Source] = &[$(&$name),+];
    };
}

sources! {
    /// Notations of acuity.
    DICOM_ACUITY: "dicom-acuity", Published, "DICOM PS3.17, Annex RR.2: visual acuity notations and their conversion";
    /// Letter score of log charts.
    BECK_2003: "beck-2003", Published, "Beck et al. 2003, Am J Ophthalmol 135:194: letter score of log charts (read in a package that quotes it)";
    /// Labels of the log ladder.
    LADDER: "ladder", FromMemory, "ISO 8596: steps of 0.1 log on preferred numbers (rule read, list of grades from memory)";
    /// Two-distance letter score.
    TWO_DISTANCE_SCORE: "two-distance-score", FromMemory, "early-treatment diabetic retinopathy study, protocol: 30 letters added at 4 m (read); the switch at 20 letters and the six lines at 1 m are from memory";
    /// Measured acuity of counting fingers and hand motion.
    SCHULZE_BONSEL_2006: "schulze-bonsel-2006", Published, "Schulze-Bonsel et al. 2006, IOVS 47:1236: acuity at counting fingers and hand motion";
    /// Retest limit of acuity in legally blind people.
    KISER_2005: "kiser-2005", Published, "Kiser et al. 2005, Optom Vis Sci 82:946: retest limits of acuity in legally blind people, 0.20 logMAR";
    /// Retest limit of acuity, trained normal observers.
    ARDITI_1993: "arditi-1993", Published, "Arditi & Cagenello 1993, IOVS 34:120: change limit of letter scores in normal sight, 0.14 logMAR";
    /// Retest limit of acuity in macular degeneration.
    PATEL_2008: "patel-2008", Published, "Patel et al. 2008, IOVS 49:4347: retest limits in macular degeneration, 12 letters (0.24 logMAR)";
    /// Retest limit of acuity in macular degeneration over a month.
    ASLAM_2014: "aslam-2014", Published, "Aslam et al. 2014, Graefes Arch: retest limits in macular degeneration over a month, 0.30 logMAR";
    /// Optics of telescopes.
    SMITH_13: "smith-13", Published, "Smith, Modern Optical Engineering, chapter 13: telescopes";
    /// Brightness of telescopes.
    SMITH_P281: "smith-281", Published, "Smith, Modern Optical Engineering, p. 281: brightness through a telescope";
    /// Telescopes for the ametrope, reading caps.
    SCHWARTZ_12: "schwartz-12", Published, "Schwartz, Geometrical and Visual Optics, chapter 12: telescopes and reading caps";
    /// Apparent field from real field.
    ISO_14132: "iso-14132", Published, "ISO 14132-1:2002, tangent rule for apparent field (as quoted in a public technical note)";
    /// Ring scotoma of a bioptic.
    DOHERTY_2011: "doherty-2011", Published, "Doherty et al. 2011, Arch Ophthalmol 129:611: ring scotoma of a 3x bioptic";
    /// Prism segments.
    APFELBAUM_2013: "apfelbaum-2013", Published, "Apfelbaum et al. 2013, TVST 2(4):2: field expansion by prisms";
    /// Telescope mounting.
    GREER: "greer", Published, "Greer, University of California Berkeley, lecture slides on fitting telescopes: 3 mm of lens must remain; axis through the rotation centre";
    /// Telescope mounting.
    YOHO_2009: "yoho-2009", Published, "Yoho 2009, Eyecare Business, January: fitting notes for spectacle telescopes";
    /// Reserve for reading.
    CHEONG_2002: "cheong-2002", Published, "Cheong, Lovie-Kitchin & Bowers 2002, Clin Exp Optom 85:229: acuity reserve 2:1 (0.3 log) for fluent reading";
    /// Success with telescopes.
    LOWE_2000: "lowe-2000", Published, "Lowe & Rubinstein 2000, Optom Vis Sci 77:260: use of distance telescopes unrelated to acuity or pathology";
    /// Head movement and telescopes.
    DEMER_1991: "demer", Published, "Demer et al., IOVS 1989 and 1991 (years from memory): steadiness, not acuity, separates successes";
    /// Lens tolerances.
    ANSI_Z80_1: "ansi-z80-1", Published, "ANSI Z80.1-2015, from a laboratory summary of the text";
    /// Frame terms.
    ISO_8624: "iso-8624", Published, "ISO 8624:2020 and the 2011 wording: the boxing system of frame measurement";
    /// Lens tilt.
    MARTIN_TILT: "martin-tilt", Published, "Durham Technical Community College, OPH142: Martin's formula for a tilted lens";
    /// Near PD.
    STOP_DISTANCE: "stop-distance", Published, "Published fitting discussion (R. Martellaro): stop distance 27 mm, near PD by geometry";
    /// Vector form of a refraction.
    THIBOS_1997: "thibos", FromMemory, "Thibos, Wheeler & Horner 1997, Optom Vis Sci 74:367: power vectors (details from memory)";
    /// Geometry or algebra.
    GEOMETRY: "geometry", Derived, "follows from the definitions; checked by an independent road";
    /// Gaussian optics.
    PARAXIAL: "paraxial", Derived, "paraxial optics of thin lenses in air; checked against the ray-transfer engine";
    /// The normal model of measurement.
    NORMAL_MODEL: "normal-model", Assumed, "assumed: repeated measurements scatter normally, with and without the aid, by the retest limit chosen";
    /// No source.
    COMMON_PRACTICE: "common-practice", CommonPractice, "common practice, no source";
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;

    #[test]
    fn ids_are_unique() {
        let ids: BTreeSet<_> = ALL.iter().map(|source| source.id).collect();
        assert_eq!(ids.len(), ALL.len(), "a source id stands twice");
    }
}
