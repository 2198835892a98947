import Foundation
internal import GatepostBridge

/// One helper for each record that makes no entry.
extension Record {
    /// Asks where one is.
    public static let here = question { .where(at: $0) }
    /// Asks for the way back.
    public static let back = question { .back(at: $0) }
    /// Strikes the last entry.
    public static let undo = question { .undo(at: $0) }

    /// Keeps what is half typed, in the shell's own form; an empty text forgets it.
    public static func draft(_ text: String) -> Record {
        question { _ in .draft(text: text) }
    }

    /// Changes nothing: is refused when the text is no bearing with its north.
    static func reading(_ bearing: String) -> Record {
        let turn = TurnRecord(
            bearing: bearing, to: "grid", unit: nil, spreadDeg: nil, declinationDeg: 0, declinationSpreadDeg: nil,
            convergenceDeg: 0, convergenceSpreadDeg: nil, place: nil, date: nil, grid: nil)
        return question { _ in .turn(turn) }
    }

    /// Asks for landmarks by a part of their names.
    static func sights(named part: String) -> Record {
        question { _ in .sights(named: part) }
    }

    /// Asks for lines by a part of their names.
    static func lines(named part: String) -> Record {
        question { _ in .lines(named: part) }
    }

    /// Asks for known points by a part of their names.
    static func points(named part: String, lines: [String], from: String?) -> Record {
        question { _ in .points(PointsRecord(named: part, lines: lines, from: from)) }
    }

    /// Holds the phone's place beside the fix.
    static func witness(_ seen: PhonePosition) -> Record {
        question {
            .witness(
                at: $0, latDeg: seen.latitudeDeg, lonDeg: seen.longitudeDeg, accuracyM: seen.accuracyM,
                seenAt: seen.at.formatted(.iso8601))
        }
    }

    /// Asks whether metal or a current is near the phone.
    static func attraction(_ felt: PhoneField) -> Record {
        question { .attraction(at: $0, place: nil, fieldUt: felt.fieldUt, up: nil, down: felt.down) }
    }
}
