internal import GatepostBridge

/// One helper for each entry that a screen makes. Bearings carry their north: "214 mag", "213 grid".
extension Record {
    /// Takes a sheet in and opens a trip on it.
    public static func carry(_ text: String, as format: SheetFormat) -> Record {
        // A trip that was opened is not an entry in it.
        question { .carry(at: $0, format: format.rawValue, text: text) }
    }

    /// Makes a sheet of what was typed from the paper map, and opens a trip on it; or adds to the open sheet.
    static func sheet(_ hand: Draft.Hand) -> Record {
        let line = TypedLine(name: hand.line, kind: hand.lineKind.told, points: hand.points, spreadM: nil)
        let known = hand.knownPoints.map { TypedKnownPoint(name: $0.name, on: hand.line, at: $0.place, kind: nil) }
        let landmarks = hand.landmarks.map(\.record)
        // A sheet without its name is refused; an absent one is added to the sheet that is open.
        let name = hand.adding == nil ? hand.name : nil
        let isNoLine = hand.adding == .point || line.isNone
        return question { at in
            .sheet(
                SheetRecord(
                    at: at, name: name, beginning: hand.beginning.told, grid: nil, scale: hand.scale.figures,
                    printedYear: nil, positionSpreadM: nil, norths: nil, lines: isNoLine ? [] : [line],
                    knownPoints: known, landmarks: landmarks, spots: [], strike: []))
        }
    }

    /// Opens another trip on the sheet of the last one, with its heights.
    static var sheetAgain: Record { strike([]) }

    /// Strikes lines, known points, landmarks or heights from the open sheet.
    static func strike(_ names: [String]) -> Record {
        question { at in
            .sheet(
                SheetRecord(
                    at: at, name: nil, beginning: nil, grid: nil, scale: nil, printedYear: nil, positionSpreadM: nil,
                    norths: nil, lines: [], knownPoints: [], landmarks: [], spots: [], strike: names))
        }
    }

    /// Sets the walker's pace: so many double paces to 100 m.
    public static func pace(_ doublePaces: Double) -> Record {
        entry { .pace(at: $0, doublePacesPer100M: doublePaces, singlePacesPer100M: nil, spreadPercent: nil) }
    }

    /// Checks a compass; what it reads too much is taken off from now on when it is kept.
    public static func compass(_ trials: [Trial], of instrument: Instrument?, isKept: Bool) -> Record {
        let record = { @Sendable (at: String) -> GatepostBridge.Record in
            let readings = trials.map {
                CompassReadingRecord(
                    station: nil, read: $0.read, known: $0.known, from: nil, to: nil, sunAt: nil, spreadDeg: nil,
                    timeSpreadS: nil)
            }
            return .compass(
                CompassRecord(
                    at: at, place: nil, instrument: instrument?.rawValue, readingSpreadDeg: nil, readings: readings,
                    pairs: [], keep: isKept, grid: nil))
        }
        return isKept ? entry(record) : question(record)
    }

    /// Takes a fix where one stands; on the only line of the sheet when that is not said.
    public static func fix(_ sightings: [Sighting], on stand: Stand?, with instrument: Instrument?) -> Record {
        var (line, lines, isOpen): (String?, [String]?, Bool?)
        switch stand {
        case .line(let one): line = one
        case .oneOf(let several): lines = several
        case .open: isOpen = true
        case nil: break
        }
        return entry { [line, lines, isOpen] at in
            .fix(
                at: at, line: line, lines: lines, lineOdds: nil, open: isOpen, instrument: instrument?.rawValue,
                sightings: sightings.map(\.record))
        }
    }

    /// Holds an independent place against the last fix; the spread is one sigma per axis.
    public static func check(_ place: String, spreadM: Double? = nil) -> Record {
        entry { .check(at: $0, place: place, spreadM: spreadM) }
    }

    /// Keeps a place of the last fix, the likeliest unless another is named, as the place of the car.
    public static func keep(stretch: UInt32? = nil, name: String? = nil) -> Record {
        entry { .keep(at: $0, stretch: stretch, name: name) }
    }

    /// Logs a leg.
    public static func leg(
        _ bearing: String, doublePaces: Double, detour: Detour? = nil, met: String? = nil
    ) -> Record {
        entry { at in
            let box = detour.map {
                DetourRecord(side: $0.side.rawValue, paces: $0.doublePaces, paceKind: "double", metres: nil)
            }
            return .leg(
                LegRecord(
                    at: at, bearing: bearing, paces: doublePaces, paceKind: "double", metres: nil, detour: box, met: met
                ))
        }
    }

    /// Begins the way back by the reversed log.
    public static let turnRound = entry { .turnRound(at: $0) }
    /// Tells that the end of the next leg of the way back is reached.
    public static let reached = entry { .reached(at: $0) }
    /// Closes the trip.
    public static let close = entry { .close(at: $0) }
}

extension TypedLine {
    fileprivate var isNone: Bool { name.isEmpty && points.isEmpty }
}

extension Draft.Landmark {
    fileprivate var record: TypedLandmark {
        TypedLandmark(name: name, kind: kind.told, at: place, spreadM: nil, heightM: height.figures)
    }
}

extension String {
    /// None when nothing stands in a field.
    fileprivate var told: String? { isEmpty ? nil : self }

    /// A number; what is none is one that the core does not take.
    fileprivate var figures: Double? { told.map { Double($0) ?? -999_999 } }
}
