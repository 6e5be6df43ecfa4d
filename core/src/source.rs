//! Every work that a number here rests on, cited once, and how well each is known.
//!
//! A number is worth what stands behind it. [`Standing`] says whether it was read, follows from definitions, is what
//! the trade does, is remembered, or was chosen here; nothing of unknown standing is in the table.
//!
//! Then read [`crate::bounds`]: what values are taken at all.

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
    /// Measured acuity of counting fingers and hand motion, second study.
    LANGE_2009: "lange-2009", Published, "Lange et al. 2009, Graefes Arch 247:137: acuity at counting fingers (1.98 logMAR, 15 people) and hand motion (2.28)";
    /// Classes of impairment, eleventh edition.
    WHO_ICD_11: "who-icd-11", Published, "World Health Organization 2019, ICD-11 9D90, as tabulated in Lancet Glob Health 2021;9:e489, table 1: classes of presenting distance acuity";
    /// Classes of impairment, tenth edition.
    WHO_ICD_10: "who-icd-10", Published, "World Health Organization, ICD-10, version of 2008: categories 0 to 5 and 9, and the hint on the field round central fixation";
    /// Near vision impairment.
    WHO_NEAR: "who-near", Published, "World Health Organization, fact sheet on blindness and vision impairment: near acuity worse than N6 or M.08 (misprint of M0.8) at 40 cm with existing correction";
    /// Statutory blindness in the United States.
    STATUTORY_BLINDNESS: "statutory-blindness", Published, "United States Social Security Administration, POMS DI 26001.005, listings 2.00A2 and ruling SSR 07-01p: statutory blindness";
    /// Certificate of vision impairment in the United Kingdom.
    UK_CERTIFICATION: "uk-certification", Published, "certificate of vision impairment of the United Kingdom, notes as summarised by a national charity, an association of dispensing opticians and Eye News; the summaries differ at 6/60";
    /// Functional acuity score.
    AMA_GUIDES: "ama-guides", Published, "American Medical Association, Guides to the Evaluation of Permanent Impairment, chapter 12 (fifth and sixth editions; Colenbrander): visual acuity score, weights of the eyes, at most 15 points of adjustment";
    /// Functional field and vision scores.
    AMA_MEMORY: "ama-memory", FromMemory, "American Medical Association, Guides, chapter 12: field grid of ten meridians, functional field and vision scores, scores without letters (from memory)";
    /// Abilities in a survey.
    WEST_2002: "west-2002", Published, "West et al. 2002, Arch Ophthalmol: acuity and contrast sensitivity at which most of 2520 older people were limited; single cut-offs are arbitrary";
    /// Mean acuity.
    HOLLADAY_1997: "holladay-1997", Published, "Holladay 1997, J Refract Surg 13:388, and 2004, J Cataract Refract Surg 30:287: mean acuity is the mean logMAR; 20/20 and 20/200 give 20/63";
    /// Proportions of the ring.
    LANDOLT_RING: "landolt-ring", Published, "ISO 8596, Landolt ring: gap and stroke a fifth of the outer diameter, inside three fifths (as quoted in secondary texts)";
    /// Scores at nearer distances.
    DONG_2002: "dong-2002", Published, "Dong et al. 2002 and 2004, Arch Ophthalmol: acuity of four trials at two distances, 3 to 8 letters worse at the nearer one";
    /// Scores at 4 m and 1 m.
    CLINIC_4_M_1_M: "clinic-4-m-1-m", Published, "clinic series of 65 eyes, IOVS (abstract): 31 letters more at 1 m than at 4 m, limits 20 to 43";
    /// Log chart and projected chart.
    KAISER_2009: "kaiser-2009", Published, "Kaiser 2009, Trans Am Ophthalmol Soc: log chart at 4 m read 6.5 letters better than a projected chart (20/69 and 20/94, 163 eyes), 10 letters below 20/200";
    /// Light on the chart.
    SHEEDY_1984: "sheedy-1984", Published, "Sheedy 1984 (as quoted in secondary texts): 0.02 logMAR for each doubling of chart luminance from 40 to 600 cd/m2";
    /// Limits of one test.
    VANDEN_BOSCH_1997: "vanden-bosch-1997", Published, "Vanden Bosch & Wall 1997, Eye 11:411: scatter within a test 0.04 logMAR, macular disease and normal sight alike (limit by 2.77 times that)";
    /// Limits in and out of focus.
    ROSSER_2004: "rosser-2004", Published, "Rosser et al. 2004 (as quoted in a secondary source): limits of 0.11 logMAR in focus and 0.25 with 1 D of blur";
    /// Limits of the mean of two.
    STARK_2013: "stark-2013", Published, "Stark & Class 2013: limits of 0.053 logMAR for the mean of two charts, normal sight";
    /// Limits in a clinic.
    SIDEROV_1999: "siderov-1999", Published, "Siderov & Tiu 1999 (as quoted in a secondary source): limits of 0.15 logMAR in a large eye clinic; its abstract prints 1.5";
    /// Limits in a hospital.
    REEVES_1993: "reeves-1993", Published, "Reeves et al. 1993, Ophthalmic Physiol Opt 13:17: limits of two lines of acuity and two triplets of contrast, more than four weeks apart";
    /// Unequal limits in low vision.
    HARDGRAVE_2012: "hardgrave-2012", Published, "Hardgrave et al. 2012: limits of +0.117 and -0.128 logMAR, 18 people with low vision";
    /// Limits by scoring rule.
    MIMOUNI_2019: "mimouni-2019", Published, "Mimouni et al. 2019, Curr Eye Res 44:790: limits of 0.14 by letter, 0.17 by half lines, 0.50 and 0.53 by whole lines (unit not printed, taken as logMAR)";
    /// Limits in children.
    VIRGILI_2004: "virgili-2004", Published, "Virgili et al. 2004, IOVS: limits of acuity, reading acuity, critical print size and speed in children";
    /// Limits of reading, normal sight.
    SUBRAMANIAN_2006: "subramanian-2006", Published, "Subramanian & Pardhan 2006 (as quoted by them in 2009): limits of reading measures, normal sight";
    /// Limits of reading, low vision.
    SUBRAMANIAN_2009: "subramanian-2009", Published, "Subramanian & Pardhan 2009, IOVS 50:3643: limits of reading measures, low vision";
    /// Limits of reading acuity in macular degeneration.
    PATEL_2011: "patel-2011", Published, "Patel et al. 2011, IOVS 52:3854: limits of reading acuity in stable macular degeneration, 0.30 logMAR";
    /// Limits of contrast sensitivity in macular degeneration.
    PATEL_2009: "patel-2009", Published, "Patel et al. 2009, IOVS 50:2621: limits of letter contrast sensitivity in macular degeneration, 7 letters (0.35)";
    /// Limits of contrast sensitivity by chart.
    THAYAPARAN_2007: "thayaparan-2007", Published, "Thayaparan et al. 2007, Br J Ophthalmol: limits of letter contrast sensitivity with three tests";
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
    /// Disc of blur.
    STRASBURGER_2018: "strasburger-2018", Published, "Strasburger, Bach & Heinrich 2018, i-Perception: diameter of the blur disc from pupil and defocus";
    /// Acuity of a blurred normal eye.
    BLENDOWSKE_2015: "blendowske-2015", Published, "Blendowske 2015: MAR grows as 1 + b^2 (the form was read; the constants are fitted here to a published table of about 6000 refractions, Br J Ophthalmol)";
    /// Acuity of a blurred eye that sees little.
    BLUR_IN_LOW_VISION: "blur-in-low-vision", Assumed, "assumed, not clinically validated: own MAR and the blur term of a normal eye add as the root of the sum of squares (form of McAnany et al. 2011, equivalent intrinsic blur)";
    /// Depth of focus by pupil.
    ATCHISON_1997: "atchison-1997", Published, "Atchison, Charman & Woods 1997, Optom Vis Sci 74:511 (abstract): just noticed blur, whole depth of focus 0.86, 0.59 and 0.55 D at pupils of 2, 4 and 6 mm; about 60 % more for letters of 0.87 than of -0.2 log of detail";
    /// Kinds of magnification.
    RYAN_MARGRAIN_2006: "ryan-margrain-2006", Published, "Ryan & Margrain 2006, Optician, 20 January: a course in low vision practice, part 5, magnification";
    /// Width of a character.
    CHARACTER_WIDTH: "character-width", Derived, "computed from letter frequencies of English and the widths of two typefaces (metrics from memory): 0.85 and 0.89 of the x-height";
    /// Magnifiers with an addition.
    SCHWARTZ_MAGNIFIERS: "schwartz-magnifiers", Published, "Schwartz, Geometrical and Visual Optics: worked examples of a hand magnifier with an addition (11.25 and 10.00 D)";
    /// Equivalent power of stand magnifiers, screens.
    BAILEY_2004: "bailey-2004", Published, "Bailey 2004, A rational approach to prescribing magnifiers, University of California Berkeley, handout: equivalent viewing distance; equivalent power is enlargement times addition";
    /// Labels of stand magnifiers.
    BROWN_SIEMSEN_2008: "brown-siemsen-2008", Published, "Brown & Siemsen 2008, Optometry 79:9: of 66 stand magnifiers none had the image at infinity and 18 % at 25 cm; equivalent power, enlargement and place of the image should be stated instead";
    /// Stand magnifiers as used.
    STAND_BENCH_STUDY: "stand-bench-study", Published, "Magnifications of stand magnifiers, Optometry & Contact Lenses (ocl-online.de): 31 stand magnifiers on a bench, at 30 cm 44 to 70 % of nominal with additions of 1.50 to 2.00 D";
    /// Samples that text needs.
    LEGGE_1985: "legge-1985", Published, "Legge et al. 1985, Vision Res 25:239 (abstract): drifting text needs a window of 4 characters, whatever its size; reading needs about two cycles to a character, sampled text 4 x 4 samples for letters of 0.1 degrees to over 20 x 20 for 24 degrees (the stored abstract drops the degree signs; this is how it is read here)";
    /// Pixels of style sheets.
    CSS_VALUES: "css-values", Published, "W3C, CSS Values and Units: the reference pixel is 1/96 inch at 28 inches, about 0.0213 degrees";
    /// Displays before the eyes.
    EHRLICH_2017: "ehrlich-2017", Published, "Ehrlich et al. 2017, Am J Ophthalmol 176:26: review of head-mounted displays for low vision";
    /// Latency of displays before the eyes.
    LATENCY_CATCHING: "latency-catching", Published, "arXiv 2603.15796: systems of 12 to 60 ms; 2 and 14 ms preferred to 23 and 29 ms in catching a ball";
    /// Latency of displays before the eyes.
    LAVALLE: "lavalle", Published, "LaValle, Virtual Reality (open text): 60 ms once thought acceptable, 15 to 25 ms typical by now";
    /// Apparent field from real field.
    ISO_14132: "iso-14132", Published, "ISO 14132-1:2002, tangent rule for apparent field (as quoted in a public technical note)";
    /// Ring scotoma of a bioptic.
    DOHERTY_2011: "doherty-2011", Published, "Doherty et al. 2011, Arch Ophthalmol 129:611: ring scotoma of a 3x bioptic";
    /// Prism segments.
    APFELBAUM_2013: "apfelbaum-2013", Published, "Apfelbaum et al. 2013, TVST 2(4):2: field expansion by prisms";
    /// Yoked prisms over the whole of both lenses.
    YOKED_PRISMS: "yoked-prisms", Published, "open-access article PMC6121738: yoked prisms over the whole field give no real expansion, because the gaze re-centres";
    /// Prisms for tunnel vision.
    WOODS_2010: "woods-2010", Published, "Woods et al. 2010, PMC2867070 (abstract): prisms with the apexes towards each other on one eye for tunnel vision, median expansion 18 degrees, 9 of 12 people kept them, 3 of those for long";
    /// Acuity through Fresnel and solid prisms.
    CHENG_WOO_2001: "cheng-woo-2001", Published, "Cheng & Woo 2001, Ophthalmic Physiol Opt (abstract): acuity is lost from 5 prism dioptres through membrane Fresnel prisms and from 10 through solid ones, more with letters of 10 % contrast";
    /// Acuity through Fresnel and solid prisms.
    VERONNEAU_1978: "veronneau-troutman-1978", Published, "Véronneau-Troutman 1978, PMC1311638 (abstract): Fresnel prisms are worse than solid ones from 12 prism dioptres far and 15 near; 30 varies most between lots";
    /// Acuity through prisms in dim light.
    PRISM_IN_DIM_LIGHT: "prism-in-dim-light", Published, "British and Irish Orthoptic Journal 2011 (abstract): 1 cd/m² costs a further 0.2 logMAR or so at every power of prism";
    /// Prisms and low contrast sensitivity.
    WOO_1992: "woo-1992", Published, "Woo 1992 (abstract): low-vision eyes whose contrast sensitivity is low already may notice little of a Fresnel prism";
    /// Prism by decentration.
    PRENTICE: "prentice", Derived, "Prentice's rule: prism is decentration in centimetres times power; geometry, with the power matrix for cylinders";
    /// Prism power and incidence.
    JUNG_PELI_2014: "jung-peli-2014", Published, "Jung & Peli 2014, Opt Eng 53:061707 (introduction): the power of a strong prism changes with the incidence, to total reflection";
    /// Telescope mounting.
    GREER: "greer", Published, "Greer, University of California Berkeley, lecture slides on fitting telescopes: 3 mm of lens must remain; axis through the rotation centre";
    /// Telescope mounting.
    YOHO_2009: "yoho-2009", Published, "Yoho 2009, Eyecare Business, January: fitting notes for spectacle telescopes";
    /// The unit of print size.
    M_UNIT: "m-unit", Published, "Sloan's M unit, 5 minutes of arc at so many metres; DeMarco & Massof 1997, J Vis Impair Blind 91:9: 1 M is 1.45 mm, about newsprint";
    /// Labels of near cards.
    NEAR_CARDS: "near-cards", Published, "Type-size variability for near-point acuity tests, a survey of 19 near cards (abstract): makers' labels, Jaeger numbers among them, tell no size; M units are urged, 1 mm is 0.7 M";
    /// Typographic points.
    TYPE_POINTS: "type-points", Published, "typographic points as given in public texts: 1/72 inch on computers, 0.013837 inch for metal type in the United States, 0.376 mm after Didot";
    /// Heights of lower case, as style sheets give them.
    CSS_ASPECT: "css-aspect", Published, "W3C, Cascading Style Sheets, fonts, aspect values in copies and an old text: Times New Roman 0.45 or 0.46, Verdana 0.58";
    /// Heights of letters, from files of typefaces.
    FONT_FILES: "font-files", FromMemory, "x-heights and heights of capitals in the files of typefaces (from memory; read them from the file, or measure)";
    /// N notation as M units.
    N_CONVENTION: "n-convention", Published, "M = N/8, a clinical convention as quoted in secondary texts; the World Health Organization pairs N6 with M0.8, Latham & Tabrett 2012 put 1 M around N8 to N10 (authors' note)";
    /// Fractions on near cards.
    REDUCED_SNELLEN: "reduced-snellen", Published, "reduced Snellen cards for 40 cm, United States: M is the denominator over 50 (as quoted in a secondary text)";
    /// Rules for near additions.
    AAO_BCSC: "aao-bcsc", Published, "American Academy of Ophthalmology, Basic and Clinical Science Course, section 3 (excerpt): Kestenbaum's rule; the power found is usually stronger than predicted";
    /// Print at 25 cm from the acuity.
    DIVIDE_BY_THREE: "divide-by-three", Published, "a practice note of 2007: the denominator in metres over three is the N read at 25 cm";
    /// Acuity and the power prescribed.
    WOLFFSOHN_2004: "wolffsohn-2004", Published, "Wolffsohn & Eperjesi 2004, Ophthalmic Physiol Opt 24:334: prescribed magnification against distance acuity r = 0.58, near word acuity r = 0.67, 187 people";
    /// The four limits of reading.
    WHITTAKER_1993: "whittaker-1993", Published, "Whittaker & Lovie-Kitchin 1993, Optom Vis Sci 70:54 (abstract): print and contrast several times threshold, a field of 4 characters and more, a central scotoma under 22 degrees across";
    /// The table of four levels.
    RESERVE_TABLE: "reserve-table", FromMemory, "table of reserves for four levels of reading as commonly reproduced (from memory; not read in the paper it is ascribed to)";
    /// Spot reading.
    SPOT_READING: "spot-reading", Published, "spot reading, about 40 words a minute, is possible at the acuity threshold (as quoted in secondary texts)";
    /// Reserves as dispensing opticians give them.
    DISPENSING_NOTES: "dispensing-notes", Published, "an association of dispensing opticians, page on low vision: acuity reserves for spot reading and for reading long";
    /// Reserves as taught.
    TEACHING_NOTES: "teaching-notes", Published, "public teaching slides on low vision: an acuity reserve of 1.3 to 1 for spot reading";
    /// Reserve that was enough.
    LATHAM_TABRETT_2012: "latham-tabrett-2012", Published, "Latham & Tabrett 2012, Optom Vis Sci 89:1316: a reserve of 2 was enough for about three quarters of 100 people; fluent is more than 80 words a minute";
    /// Sizes chosen as comfortable.
    LATHAM_MACNAUGHTON_2022: "latham-macnaughton-2022", Published, "Latham & Macnaughton 2022: comfortable size chosen by 47 people, 1.74 times threshold in the mean, within 0.35 log of the critical print size";
    /// Reserve in macular degeneration.
    CACHO_2010: "cacho-2010", Published, "Cacho et al. 2010, Optom Vis Sci 87(5): critical print size 0.41 log above word threshold, 243 people with macular degeneration";
    /// Where speed levels off.
    BAILEY_CLEAR_1992: "bailey-clear-1992", Published, "Bailey, Clear & Berman 1992: speed nearly independent of size from twice the threshold";
    /// Speed by multiples of the threshold.
    SPEED_BY_RESERVE: "speed-by-reserve", Published, "IOVS abstract 2359161: speeds of 25 readers with normal sight at 1, 2, 3 and 4 times the threshold distance";
    /// Speed against size, linear.
    SPEED_CURVE: "speed-curve", Published, "IOVS abstract 2413112: reading rate against print size of 50 readers with low vision; critical size 0.47 log above letter acuity, greatest rate nearly independent of acuity (r 0.16)";
    /// Speed against size, logarithmic.
    CHEUNG_2008: "cheung-2008", FromMemory, "Cheung et al. 2008, Optom Vis Sci 85:828: exponential fits over log print size (idea read in a secondary text, this way of writing it from memory)";
    /// Speed at very large print.
    NYGAARD_2008: "nygaard-2008", Published, "Nygaard et al. 2008, J Rehabil Res Dev 45:901: speed falls again at very large print in 22 % of data";
    /// Plateau of reading speed.
    LEGGE_2007: "legge-2007", Published, "Legge 2007, Psychophysics of Reading, chapter 5 (as quoted in secondary texts): sizes read 1.96 standard deviations faster than the rest are the plateau; critical print size by 80 or 90 % elsewhere";
    /// What the rule of the plateau leaves open.
    PLATEAU_READING: "plateau-reading", Assumed, "our reading of the rule of 1.96 standard deviations: a run of at least three sizes, all others slower than that below its mean and none of it, both ends at 80 % of the mean; the longest run counts";
    /// Scoring of sentences.
    SENTENCE_CHARTS: "sentence-charts", Published, "charts of sentences of 60 characters, ten standard words: 60 (10 - errors) / seconds, ten errors and more are nothing";
    /// Reading acuity from sentences.
    READING_ACUITY_RULE: "reading-acuity-rule", FromMemory, "reading acuity from a chart of sentences: a tenth a sentence, a hundredth a word (read), starting from 1.4 at 40 cm (from memory)";
    /// Accessibility index.
    CALABRESE_INDEX: "calabrese-index", Published, "Calabrèse et al. 2016, JAMA Ophthalmol: reading accessibility index, mean speed at 1.3 to 0.4 logMAR over 200 words a minute";
    /// What people of an age reach.
    CALABRESE_NORMS: "calabrese-norms", Published, "Calabrèse et al. 2016, IOVS 57:3836: greatest speed, accessibility index, critical print size and reading acuity of 645 people of 8 to 81 years";
    /// How fast adults read.
    BRYSBAERT_2019: "brysbaert-2019", Published, "Brysbaert 2019: English is read at 238 words a minute silently (non-fiction) and 183 aloud";
    /// Field of video magnifiers.
    BECKMANN_LEGGE_1996: "beckmann-legge-1996", Published, "Beckmann & Legge 1996, Vision Res 36:3723: 5.2 characters for drifting text and 10 with a video magnifier moved by hand give 85 % of the greatest speed";
    /// Field of stand magnifiers.
    FINE_1996: "fine-1996", Published, "Fine, Kirschen & Peli 1996: with a stand magnifier speed still rises at 13 characters";
    /// Field of video magnifiers in macular degeneration.
    DEN_BRINKER_1996: "den-brinker-1996", Published, "den Brinker & Bruggeman 1996: more than 12 characters on a video magnifier in macular degeneration";
    /// Best field of video magnifiers.
    LOWE_DRASDO_1990: "lowe-drasdo-1990", Published, "Lowe & Drasdo 1990 (abstract; authors from memory): best rate on a video magnifier at about 24 characters, 70 degrees";
    /// Field of hand magnifiers.
    DICKINSON_FOTINAKIS_2000: "dickinson-fotinakis-2000", Published, "Limitations imposed on reading by low vision aids, Dickinson & Fotinakis 2000 (abstract; authors from memory): with a hand magnifier only a field of 2 characters hurts badly";
    /// Characters on a line of a screen.
    ATILGAN_2020: "atilgan-2020", Published, "Atilgan, Xiong & Legge 2020, PNAS: static pages reach 80 % of the greatest speed with 13 characters on a line, 8 in low vision";
    /// Field for planning.
    FIELD_PLAN: "field-plan", Assumed, "thresholds for planning, ours: under 4 characters too narrow, 4 to 9 for spot reading, 10 to 15 workable, above 15 comfortable";
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
    /// Prism for near.
    PRISM_EACH_EYE: "prism-each-eye", Published, "guide of a rehabilitation agency and an optometry lecture: base-in prism of power + 2 in each eye";
    /// Prism for near.
    PRISM_IN_TOTAL: "prism-in-total", Published, "note of a practitioners' association, 2020: base-in prism of power + 2 in both eyes together";
    /// Prism for near.
    PRISM_PER_ADD: "prism-per-add", Published, "clinical note, which says that several rules exist: base-in prism of 1 prism dioptre in each eye per dioptre of the addition";
    /// Inset of near lenses.
    LEBENSOHN_FONDA: "lebensohn-fonda", FromMemory, "rule named after Lebensohn and Fonda, remembered form, not found: inset of 1.5 times half the PD over the distance in inches and 1.5";
    /// Accommodation by age.
    HOFSTETTER: "hofstetter", Published, "Hofstetter's formulas, from data of Donders and Duane, as quoted in many texts; the sample and the plane from secondary sources";
    /// Accommodation of schoolchildren.
    AMPLITUDE_CHILDREN_2018: "amplitude-children-2018", Published, "Clin Exp Optom 2018 (first author Hashemi, from memory): 5444 children of 6 to 12 years, mean amplitude 14.44 D";
    /// Accommodation of adults.
    PARK_2019: "park-2019", Published, "Park et al. 2019, PLoS ONE 14(11): mean amplitude 11.13 D in the twenties, 5.53 D in the forties";
    /// Accommodation that presbyopes use.
    MILLODOT_1989: "millodot-1989", Published, "Millodot & Millodot 1989, Ophthalmic Physiol Opt 9:126: presbyopes use 50.7 % of the amplitude on average; after about 52 years depth of focus is measured";
    /// Accommodation that can be sustained.
    WOLFFSOHN_2011: "wolffsohn-2011", Published, "Wolffsohn et al. 2011, Ophthalmic Physiol Opt 31:480: young adults sustain 80.6 % of the amplitude for 30 minutes";
    /// How amplitude is measured.
    PUSH_UP_AMPLITUDE: "push-up-amplitude", Published, "ARVO abstract, IOVS article 2369754: 180 eyes of 20 to 58 years; subjective over objective by 0.2 to 1.1 D, push-up 23 % above other subjective methods";
    /// Vector form of a refraction.
    THIBOS_1997: "thibos", FromMemory, "Thibos, Wheeler & Horner 1997, Optom Vis Sci 74:367: power vectors (details from memory)";
    /// Geometry or algebra.
    GEOMETRY: "geometry", Derived, "follows from the definitions; checked by an independent road";
    /// Gaussian optics.
    PARAXIAL: "paraxial", Derived, "paraxial optics of thin lenses in air; checked against the ray-transfer engine";
    /// Scoring of letter charts of contrast.
    ARDITI_2005: "arditi-2005", Published, "Arditi 2005, IOVS 46:2225: letter contrast charts, 0.05 log a letter of triplets, 0.04 a letter of single steps; stopping and scoring rules change the result";
    /// Bands of contrast sensitivity.
    LEAT_1999: "leat-1999", FromMemory, "Leat et al. 1999: log contrast sensitivity below 1.5 impaired, below 1.05 disabling";
    /// Bands of a chart in single steps.
    SINGLE_STEP_BANDS: "single-step-bands", Published, "bands of the letter contrast chart in steps of 0.04 log (as quoted in one secondary copy of poor quality)";
    /// Bands of contrast sensitivity for reading.
    LETTER_THRESHOLDS: "letter-thresholds", Published, "conference review, IOS Press, volume article 14992: letter contrast thresholds above 9 % are poor and above 25 % very poor for reading; guidelines, not criteria";
    /// Contrast sensitivity of normal sight.
    MANTYJARVI_2001: "mantyjarvi-2001", Published, "Mäntyjärvi & Laitinen 2001, J Cataract Refract Surg 27:261: normal letter contrast sensitivity by age, one and both eyes";
    /// Contrast of colours on screens.
    WCAG: "wcag", Published, "W3C, Web Content Accessibility Guidelines 2.x: relative luminance, contrast ratio and least ratios";
    /// Contrast of boards in class.
    ADAMS_2021: "adams-2021", Published, "Adams et al. 2021, J Pediatr Ophthalmol Strabismus 58:48 (abstract): contrast of whiteboards and projected boards in classrooms, and the acuity that 14 rooms ask for";
    /// Contrast of chalkboards.
    NEGILONI_2019: "negiloni-2019", Published, "Negiloni et al. 2019, PLoS One 14:e0210299: chalkboards in 29 classrooms, median contrast 40 %, and the acuity they ask for";
    /// Contrast of parts of buildings.
    MANANDHAR_2022: "manandhar-2022", Published, "Manandhar et al. 2022: visibility of parts of buildings, 30 % required, 65 % and more needed with severe loss";
    /// Demands of classrooms, and how a day in them is spent.
    NARAYANASAMY_2016: "narayanasamy-2016", Published, "Narayanasamy et al. 2016, Clin Exp Optom (abstract; authors from memory): visual demands of 33 Australian classrooms";
    /// Demands of classrooms by seat.
    EDO_2022: "edo-2022", Published, "Scientific Reports 2022 (abstract): acuity that boards ask for in classrooms of Edo State, nearest and farthest seat";
    /// Bands of cycles across faces.
    PARKER_COSTEN_1999: "parker-costen-1999", Published, "Parker & Costen 1999: faces are known by 8 to 16 cycles across the face, best about 11.1";
    /// Bands of cycles across faces.
    NASANEN_1999: "nasanen-1999", Published, "Näsänen 1999: faces are known best by 8 to 13 cycles across the face, about 10, in less than two octaves";
    /// Width of a face.
    FACE_WIDTH: "face-width", FromMemory, "width of a face between the ears, 0.14 to 0.15 m";
    /// Distances at which low-vision people matched faces.
    FACE_DISTANCES_STUDY: "face-distances-study", Published, "IOVS abstract 2796195: distances at which 19 people of 0.18 to 1.66 logMAR matched identity, emotion and speech in faces, and how little of them acuity and contrast sensitivity explain";
    /// Letters of road signs.
    ROAD_SIGNS_2003: "road-signs-2003", Published, "Manual on Uniform Traffic Control Devices, 2003 edition, 2A.14 (in a copy): one inch of letter for 40 feet, with a note of research on 33 feet";
    /// Letters of road signs.
    ROAD_SIGNS_2009: "road-signs-2009", Published, "Manual on Uniform Traffic Control Devices, 2009 edition: one inch of letter for 30 feet (read in secondary copies)";
    /// Letters of street-name signs.
    STREET_NAME_SIGNS: "street-name-signs", Published, "street-name signs, United States: capitals 6 inches and lower case 4.5 inches high (read in a secondary source)";
    /// Size of newspaper print.
    LEGGE_2016: "legge-2016", Published, "Legge 2016, Visible Language: newspaper text has an x-height of about 1.45 mm; DeMarco & Massof 1997, J Vis Impair Blind 91:9: sections of a paper differ by more than 2, papers by more than 1.5 times";
    /// Print sizes read fluently.
    LEGGE_BIGELOW_2011: "legge-bigelow-2011", Published, "Legge & Bigelow 2011, J Vis 11(5):8: normal sight reads fluently at x-heights of 0.2 to 2 degrees";
    /// Everyday print in M units.
    PRINT_EXAMPLES: "print-examples", Published, "usual table of everyday print at 40 cm: newspaper 1 M, paperback 0.8 M, children's book 1.6 M, headline 5 M (read in a secondary source)";
    /// Letters of food labels.
    EU_FOOD_LABELS: "eu-food-labels", Published, "Regulation (EU) 1169/2011, article 13: x-height of mandatory text at least 1.2 mm, 0.9 mm on small packages";
    /// Print on phones.
    BABABEKOVA_2011: "bababekova-2011", Published, "Bababekova et al. 2011, Optom Vis Sci 88:795: print size and distance of phones, text messages and web pages";
    /// Print on screens.
    GRANQUIST_2018: "granquist-2018", Published, "Granquist et al. 2018 (PMC6123827): x-height and distance of text on screens; at logMAR 1.0 it is 2.8 times nearer and 6 times larger than with normal sight";
    /// Letters of displays.
    ISO_9241: "iso-9241-3", Published, "ISO 9241-3: capitals of displays 20 to 22 minutes of arc preferred, 16 at least (as quoted in a secondary source)";
    /// Large print.
    LARGE_PRINT: "large-print", Published, "guidance of government, charities and printing houses: large print 16 to 22 points in the United Kingdom and 18 in the United States, enlarged 14 to 16, giant 24 and more (read in secondary sources; heights follow from typefaces remembered)";
    /// Numbers of buses.
    UK_BUSES: "uk-buses", Published, "United Kingdom, Public Service Vehicles Accessibility Regulations 2000, schedule 2, paragraph 8: route numbers at least 200 mm high front and rear, 70 mm at the side";
    /// Number plates.
    UK_PLATES: "uk-plates", Published, "United Kingdom, number plates of 2001: 79 mm high, 50 mm wide, stroke 14 mm, to be read at 20 m (read in summaries)";
    /// Signs in buildings.
    US_BUILDING_SIGNS: "us-building-signs", Published, "United States, standards for accessible design, 703.5.5: least height of letters by height of the sign and distance";
    /// Slip of the image behind a telescope.
    DEMER_AMJADI_1993: "demer-amjadi-1993", Published, "Demer & Amjadi 1993, IOVS (abstract): above 2 degrees a second of slip acuity falls by its 0.6th power, normal eyes, vertical movement";
    /// Movement behind a telescope.
    DEMER_1988: "demer-1988", Published, "Demer et al. 1988, IOVS 29:1184 (abstract) and the group's work on walking of the same year: acuity through telescopes in motion";
    /// Sway of a head held still.
    PORTER_1989: "porter-1989", Published, "Porter et al. 1989 (as quoted in a chapter by Demer): small sway of the head costs acuity through a telescope";
    /// Eye movements behind a telescope.
    REFLEX_MAGNIFIED: "reflex-magnified", Published, "Vestibulo-ocular reflex during magnified vision (abstract; authors, Demer et al., from memory): gain through 2.2x, at first and after 15 minutes";
    /// Least detail beside the fovea.
    SONG_2014: "song-2014", Published, "Song, Levi & Pelli 2014, J Vis 14(5):3, eq 13 (read in the last author's open code): letter height 0.029 (E + 2.72) degrees";
    /// Least detail beside the fovea.
    ANSTIS_1974: "anstis-1974", FromMemory, "Anstis 1974, Vision Res 14:589: letter height 0.046 E - 0.031 degrees from about 2 degrees on (that it is a line was read, its figures are from memory)";
    /// Least detail beside the fovea.
    LUDVIGH_1941: "ludvigh-1941", Published, "Ludvigh 1941 (as quoted by Anstis 1974): acuity for letters is halved at 1.75 degrees";
    /// Least detail beside the fovea.
    JONES_HIGGINS_1947: "jones-higgins-1947", Published, "Jones & Higgins 1947 (as quoted by Anstis 1974): acuity for broken rings is halved at 0.5 degrees";
    /// Least detail beside the fovea.
    COWEY_ROLLS_1974: "cowey-rolls-1974", Published, "Cowey & Rolls 1974 (as tabulated by Strasburger et al. 2011): the least angle is doubled at 1.746 degrees";
    /// Gratings beside the fovea.
    ROVAMO_VIRSU_1979: "rovamo-virsu-1979", Published, "Rovamo & Virsu 1979 (as quoted in a secondary source): scaled gratings, 3.0 degrees";
    /// Map of the visual cortex.
    CORTICAL_E2: "cortical-e2", Published, "Horton & Hoyt; Duncan & Boynton; Larsson & Heeger; Slotnick (as quoted in a secondary source): eccentricities of doubling of the cortical map";
    /// Position and gratings beside the fovea.
    LEVI_1985: "levi-1985", FromMemory, "Levi, Klein & Aitsebaomo 1985 (found, figures from memory): position 0.6 to 0.8, gratings about 2.5 degrees";
    /// Doubling needs its foveal threshold.
    PERIPHERY_REVIEW: "periphery-review", Published, "PMC11073400, table 2: an eccentricity of doubling tells the slope only with the threshold at the fovea";
    /// Print beside the fovea.
    CHUNG_1998: "chung-1998", Published, "Chung, Mansfield & Legge 1998: critical print size 0.16 degrees at the fovea and 2.22 at 20 degrees, reading speed 807 and 135 words a minute";
    /// Crowding.
    PELLI_2017: "pelli-2017", Published, "Pelli 2017 (as quoted in a secondary source): crowding spacing 0.3 (E + 0.15) degrees along the radius";
    /// Crowding, how people differ.
    BOUMA_SURVEY_2023: "bouma-survey-2023", Published, "survey of Bouma's law, 50 observers, 2023: factor 0.24 to 0.35, mean 0.30";
    /// Letters beside a macula that is diseased.
    CHUNG_2014: "chung-2014", Published, "Chung 2014, Vision Res 101:167: in macular degeneration letters have to be larger than in normal periphery at the same place; 11 observers, 2.5 to 6.7 degrees, 0.32 to 1.12 logMAR";
    /// Area of fixation, normal sight.
    MORALES_2016: "morales-2016", Published, "Morales et al. 2016: area of fixation of 358 normal eyes, 0.80 and 2.40 square degrees at 63 and 95 %, and 95 % of the points within 1 degree, 99 % within 2";
    /// Area of fixation in macular disease.
    SCHONBACH_2017: "schonbach-2017", Published, "Schönbach et al. 2017: area of fixation in inherited macular disease, 4.6 square degrees fixating and 12.5 during perimetry";
    /// Three classes of fixation.
    FUJII_2002: "fujii-2002", FromMemory, "Fujii et al. 2002: stable, relatively unstable and unstable fixation by the share of points in circles of 2 and 4 degrees";
    /// The ellipse of fixation.
    BIVARIATE_NORMAL: "bivariate-normal", Derived, "normal scatter in two directions: the ellipse of a share P has the area -2 ln(1 - P) pi sigma_x sigma_y sqrt(1 - rho^2); works that write 2 k pi have k = 1 at 63.2 %";
    /// Order of contrast of print and screens.
    CROSSLAND_2012: "crossland-2012", Published, "Crossland & Rubin 2012: newsprint has less contrast than laser print, a lit screen the most (order only); high fluent reading is 160 words a minute and more";
    /// Contrast of print and faces.
    PRINT_CONTRASTS: "print-contrasts", FromMemory, "figures often quoted for newsprint, paperbacks, laser print, banknotes and faces";
    /// Polarity in normal sight.
    LEGGE_1987: "legge-1987", Published, "Legge, Rubin & Luebker 1987, Vision Res 27:1165: polarity is immaterial in normal sight";
    /// Polarity in low vision.
    RUBIN_LEGGE_1989: "rubin-legge-1989", Published, "Rubin & Legge 1989: 5 of 19 readers with low vision read white on black faster, 4 of them with cloudy media";
    /// Light for reading in macular degeneration.
    BOWERS_2001: "bowers-2001", Published, "Bowers, Meek & Stewart 2001, Clin Exp Optom 84:139: 20 readers with age-related macular degeneration at 50 to 5000 lx";
    /// Light preferred in maculopathy.
    ELDRED_1992: "eldred-1992", Published, "Eldred 1992: 11 of 18 people with age-related maculopathy preferred 5920 to 7534 lx for reading";
    /// Effect of more light.
    HAYMES_2006: "haymes-2006", Published, "Haymes & Lee 2006: from 300 to 3000 lx near acuity gains 0.13 logMAR and contrast sensitivity 1.5 dB";
    /// Colour of lamps.
    EPERJESI_2007: "eperjesi-2007", Published, "Eperjesi et al. 2007: the spectrum of the lamp has no clinical effect at 2000 lx";
    /// Repeats of preferred light.
    LIGHT_REPEATS: "light-repeats", Published, "test and retest of preferred light in low vision: limits of agreement 2657 lx wide";
    /// Levels of the lighting standard.
    EN_12464: "en-12464-1", Published, "EN 12464-1: scale of illuminance, classrooms 300 lx, boards 500 lx, faces 20 lx, one step more where sight is poor (as quoted in secondary sources)";
    /// Level for offices.
    EN_12464_OFFICE: "en-12464-1-office", FromMemory, "EN 12464-1: offices 500 lx";
    /// Range of light to try.
    LIGHT_TRIAL: "light-trial", Assumed, "chosen here: 500 to 5000 lx to try, because what people preferred and what helped them differ so much";
    /// Size of the pupil.
    WATSON_YELLOTT_2012: "watson-yellott-2012", Published, "Watson & Yellott 2012, J Vis 12(10):12, equations 1 and 21: pupil from luminance, area of the field, age and eyes (coefficients read in two open implementations)";
    /// Categories of tints.
    ISO_12312: "iso-12312-1", Published, "EN ISO 12312-1:2013: categories of sunglasses and limits for driving (as given by the College of Optometrists; the edition of 2022 was not read)";
    /// Tints of prescription lenses.
    RABBETTS_TINTS: "rabbetts-tints", Published, "Rabbetts, Optician: clauses on driving for prescription lenses in ISO 8980-3, moved from ISO 14889";
    /// Benefit of tints.
    COCHRANE_2018: "cochrane-2018", Published, "Cochrane review 2018 of reading aids in low vision: no support for tinted filters in reading";
    /// Reflection at a surface.
    FRESNEL: "fresnel", Derived, "reflection between air and glass at right angles, from the wave theory of light";
    /// Reflection of coated surfaces.
    COATED_SURFACES: "coated-surfaces", FromMemory, "typical reflection of coated surfaces, 1.5 % and 0.5 %";
    /// Luminous efficiency of the eye.
    CIE_EFFICIENCY: "cie-efficiency", Published, "CIE 1924 luminous efficiency V(λ) for photopic vision (CIE 018), every 10 nm; checked against an open colour-science library";
    /// Spectrum of daylight.
    CIE_DAYLIGHT: "cie-daylight", Published, "CIE standard illuminant D65 (ISO/CIE 11664-2), every 10 nm; checked against an open colour-science library";
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
