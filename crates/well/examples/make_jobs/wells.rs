//! The two invented wells. Depths of paths, rock and holes in metres; of logs in the file's unit.

use super::unit::{FOOT, Unit};
use super::{Logs, Well, bore, joints, log, path, rock, survey};

/// All wells.
pub static ALL: [Well; 2] = [LONG_LATERAL, SHALLOW_OIL];

/// Metres of feet.
const fn ft(feet: f64) -> f64 {
    feet * FOOT
}

const LONG_LATERAL: Well = Well {
    folder: "long-lateral",
    seed: 20_600,
    unit: Unit::Feet,
    path: path::Plan {
        total: ft(20_600.0),
        kickoff: ft(10_100.0),
        azimuth: 177.5,
        build: &[(60.0, 11.2), (78.0, 6.6), (89.0, 9.6)],
        lateral: &[
            (ft(11_050.0), 89.7),
            (ft(13_200.0), 89.8),
            (ft(13_290.0), 88.0),
            (ft(13_600.0), 88.2),
            (ft(13_720.0), 90.0),
            (ft(15_430.0), 89.9),
            (ft(15_520.0), 88.7),
            (ft(15_850.0), 88.9),
            (ft(16_000.0), 90.1),
            (ft(17_380.0), 89.6),
            (ft(17_480.0), 91.5),
            (ft(17_700.0), 91.3),
            (ft(17_850.0), 89.8),
            (ft(20_600.0), 89.6),
        ],
        stand: ft(94.0),
        motor: 9.5,
    },
    survey: survey::Plan {
        head: &[
            "All data invented: example job, no well of this name exists.",
            "Definitive survey, minimum curvature, from the rotary table; azimuths to grid north.",
        ],
        unit: Unit::Feet,
        gyro: ft(2_000.0),
        remarks: &[
            (ft(2_010.0), "MWD survey tied in to the gyro; surface casing shoe at 2010 ft"),
            (ft(10_100.0), "kick-off at 10100 ft"),
            (ft(11_047.0), "7 in casing shoe at 11047 ft; new assembly below"),
            (ft(15_430.0), "fault crossed near 15430 ft; 9 ft down to the toe side"),
        ],
        dense: (ft(10_040.0), ft(11_120.0)),
        section: 177.5,
    },
    rock: rock::Plan {
        shale: &[
            (ft(11_040.0), ft(11_105.0), 0.45),
            (ft(13_225.0), ft(13_470.0), 0.95),
            (ft(15_425.0), ft(15_490.0), 0.70),
            (ft(17_395.0), ft(17_600.0), 0.90),
        ],
        streak_gap: ft(320.0),
        clean: 46.0,
        shale_adds: 82.0,
    },
    bore: bore::Plan {
        bit: 6.0,
        over: 0.035,
        stand: ft(94.0),
        breakout: &[
            (ft(12_100.0), ft(12_235.0), 0.15),
            (ft(14_350.0), ft(14_430.0), 0.12),
            (ft(18_300.0), ft(18_420.0), 0.19),
            (ft(19_690.0), ft(19_770.0), 0.14),
        ],
        washout: &[(ft(19_016.0), ft(9.0), 0.55), (ft(16_492.0), ft(6.0), 0.42)],
        tight: &[(ft(12_655.0), ft(2.5), 0.17), (ft(16_310.0), ft(3.0), 0.14), (ft(18_905.0), ft(2.0), 0.12)],
        rate: ft(95.0),
    },
    logs: LONG_LATERAL_LOGS,
    joints: joints::Plan {
        head: &[
            "All data invented: example job.",
            "4-1/2 in liner joints as strapped on the rack; made-up lengths (make-up loss taken off); all drifted 3.795 in.",
        ],
        unit: Unit::Feet,
        count: 226,
        rack: 60,
        marker: &[("marker joint for depth control", 20.0), ("marker joint for depth control", 20.0)],
        pup: &[("spare", 15.0), ("spare", 15.0)],
        stencil: "4.500 in 13.50 lb/ft P110 BTC",
        serial: "LL",
        make_up: 0.0,
    },
};

const LONG_LATERAL_LOGS: Logs = Logs {
    head: log::Head {
        well: "LONG LATERAL 1-H, INVENTED",
        field: "EXAMPLE",
        service: "NONE, INVENTED EXAMPLE",
        date: "2026-03-14",
        parameters: &[
            ("BS", "IN", "6.000", "BIT SIZE"),
            ("CSGD", "F", "11047.0", "CASING SHOE, DRILLER"),
            ("TDD", "F", "20600.0", "TOTAL DEPTH, DRILLER"),
            ("BHT", "DEGF", "239.0", "BOTTOM HOLE TEMPERATURE"),
            ("CSIG", "IN", "0.04", "CALIPER ACCURACY, ONE STANDARD DEVIATION"),
        ],
        remarks: &[
            "ALL DATA INVENTED. CALIPER LOGGED WHILE WIPING OUT, FROM MEMORY.",
            "LOG DEPTH IS 3.5 FT SHALLOW TO THE DRILLER'S TALLY.",
        ],
    },
    range: (11_056.0, 20_588.0),
    samples: 2,
    shift: 3.5,
    lost: &[
        (11_056.0, 11_064.0),
        (12_408.5, 12_411.0),
        (14_871.5, 14_889.0),
        (16_950.0, 16_953.5),
        (19_377.0, 19_381.0),
        (20_575.0, 20_588.0),
    ],
    spikes: &[
        (11_512.5, 9.985),
        (12_033.0, 9.985),
        (12_977.5, 3.9),
        (13_801.0, 9.985),
        (14_420.5, 8.114),
        (15_066.0, 9.985),
        (15_960.5, 4.02),
        (16_707.0, 9.985),
        (17_955.5, 7.661),
        (18_411.0, 9.985),
        (19_144.5, 3.9),
        (20_101.0, 9.985),
    ],
    quality: Some((
        log::Head {
            well: "LONG LATERAL 1-H, INVENTED",
            field: "EXAMPLE",
            service: "NONE, INVENTED EXAMPLE",
            date: "2026-03-16",
            parameters: &[("CUT", "V/V", "0.35", "BELOW THIS THE GEOLOGIST WOULD RATHER HAVE NO SLEEVE")],
            remarks: &[
                "ALL DATA INVENTED. QUALITY FROM GAMMA RAY, GAS AND CUTTINGS, AT THE DRILLER'S DEPTHS.",
            ],
        },
        1,
    )),
};

const SHALLOW_OIL: Well = Well {
    folder: "shallow-oil",
    seed: 9_900,
    unit: Unit::Metres,
    path: path::Plan {
        total: 3018.0,
        kickoff: 1352.0,
        azimuth: 92.0,
        build: &[(64.0, 9.6), (80.0, 6.4), (89.2, 8.6)],
        lateral: &[
            (1660.0, 89.6),
            (2190.0, 89.8),
            (2215.0, 91.4),
            (2290.0, 91.0),
            (2330.0, 89.4),
            (3018.0, 89.5),
        ],
        stand: 28.6,
        motor: 10.0,
    },
    survey: survey::Plan {
        head: &[
            "All data invented: example job, no well of this name exists.",
            "Definitive survey, minimum curvature, from the kelly bushing; azimuths to grid north.",
        ],
        unit: Unit::Metres,
        gyro: 420.0,
        remarks: &[
            (425.0, "MWD survey tied in to the gyro; surface casing shoe at 425 m"),
            (1352.0, "kick-off at 1352 m"),
            (1661.0, "7 in casing shoe at 1661 m"),
        ],
        dense: (1335.0, 1680.0),
        section: 92.0,
    },
    rock: rock::Plan {
        shale: &[(1655.0, 1676.0, 0.5), (2208.0, 2254.0, 0.9), (2758.0, 2769.0, 0.65)],
        streak_gap: 95.0,
        clean: 38.0,
        shale_adds: 75.0,
    },
    bore: bore::Plan {
        bit: 6.125,
        over: 0.045,
        stand: 28.6,
        breakout: &[(1905.0, 1930.0, 0.13), (2560.0, 2595.0, 0.18)],
        washout: &[(2484.0, 2.0, 0.45)],
        tight: &[(2060.0, 0.8, 0.14), (2903.0, 0.6, 0.11)],
        rate: 24.0,
    },
    logs: SHALLOW_OIL_LOGS,
    joints: joints::Plan {
        head: &[
            "All data invented: example job.",
            "4-1/2 in liner joints, overall lengths as strapped on the rack; make-up loss not taken off; all drifted 98.4 mm.",
        ],
        unit: Unit::Metres,
        count: 111,
        rack: 40,
        marker: &[("marker joint for depth control", 10.0)],
        pup: &[("spare", 12.0)],
        stencil: "114.3 mm 17.26 kg/m L80 LTC",
        serial: "SO",
        make_up: 0.076,
    },
};

const SHALLOW_OIL_LOGS: Logs = Logs {
    head: log::Head {
        well: "SHALLOW OIL 15-4, INVENTED",
        field: "EXAMPLE",
        service: "NONE, INVENTED EXAMPLE",
        date: "2026-06-02",
        parameters: &[
            ("BS", "MM", "155.6", "BIT SIZE"),
            ("CSGD", "M", "1661.0", "CASING SHOE, DRILLER"),
            ("TDD", "M", "3018.0", "TOTAL DEPTH, DRILLER"),
            ("BHT", "DEGC", "55.0", "BOTTOM HOLE TEMPERATURE"),
        ],
        remarks: &[
            "ALL DATA INVENTED. MULTI-ARM CALIPER ON DRILL PIPE.",
            "LOG DEPTH IS 1.2 M DEEP TO THE DRILLER'S TALLY.",
        ],
    },
    range: (1665.0, 3016.0),
    samples: 10,
    shift: -1.2,
    lost: &[(1665.0, 1667.2), (2101.3, 2103.9), (2688.0, 2688.8), (3011.0, 3016.0)],
    spikes: &[
        (1777.7, 250.0),
        (1984.2, 250.0),
        (2150.5, 98.0),
        (2377.1, 250.0),
        (2622.4, 211.3),
        (2801.9, 250.0),
        (2950.6, 101.2),
    ],
    quality: None,
};
