/// One helper for each record that a screen sends. Bearings carry their north: "214 mag", "213 grid", "212 true".
extension Record {
    /// Takes a sheet in and opens a trip on it.
    public static func carry(_ text: String, as format: SheetFormat) -> Record {
        Record(.carry) { ($0.text, $0.format) = (text, format.rawValue) }
    }

    /// Sets the walker's pace: so many paces to 100 m.
    public static func pace(_ count: Double, _ kind: PaceKind, spreadPercent: Double? = nil) -> Record {
        Record(.pace) {
            switch kind {
            case .single: $0.singlePaces = count
            case .double: $0.doublePaces = count
            }
            $0.spreadPercent = spreadPercent
        }
    }

    /// Takes a fix on a line.
    public static func fix(_ sightings: [Sighting], on line: String?, with instrument: Instrument?) -> Record {
        Record(.fix) { ($0.sightings, $0.line, $0.instrument) = (sightings, line, instrument) }
    }

    /// Holds an independent place against the last fix; the spread is one sigma per axis.
    public static func check(_ place: String, spreadM: Double? = nil) -> Record {
        Record(.check) { ($0.place, $0.spreadM) = (place, spreadM) }
    }

    /// Keeps a place of the last fix, the likeliest unless another is named, as the place of the car.
    public static func keep(stretch: Int? = nil, name: String? = nil) -> Record {
        Record(.keep) { ($0.stretch, $0.name) = (stretch, name) }
    }

    /// Logs a leg.
    public static func leg(
        _ bearing: String, _ distance: Distance, detour: Detour? = nil, met: String? = nil
    ) -> Record {
        Record(.leg) {
            $0.bearing = bearing
            ($0.paces, $0.paceKind, $0.metres) = (distance.paces, distance.paceKind, distance.metres)
            ($0.detour, $0.met) = (detour, met)
        }
    }

    /// Keeps what is half typed, in the shell's own form; an empty text forgets it.
    public static func draft(_ text: String) -> Record {
        Record(.draft) { $0.text = text }
    }

    /// Asks where one is.
    public static let here = Record(.here)
    /// Asks for the way back.
    public static let back = Record(.back)
    /// Begins the way back by the reversed log.
    public static let turnRound = Record(.turnRound)
    /// Tells that the end of the next leg of the way back is reached.
    public static let reached = Record(.reached)
    /// Strikes the last entry.
    public static let undo = Record(.undo)
    /// Closes the trip.
    public static let close = Record(.close)

    /// Changes nothing: is refused when the text is no bearing with its north.
    static func reading(_ bearing: String) -> Record {
        Record(.turn) {
            ($0.bearing, $0.to, $0.declination, $0.convergence) = (bearing, "grid", 0, 0)
        }
    }
}
