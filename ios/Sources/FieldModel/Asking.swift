extension Draft {
    /// One more sighting, asked for question by question.
    public struct Asking: Codable, Equatable, Sendable {
        public let kind: Kind
        /// What was answered so far; an empty answer leaves it open.
        public internal(set) var answers: [String] = []
        /// The landmarks that were touched while it may be one of several.
        public internal(set) var several: [String] = []

        public init(_ kind: Kind) { self.kind = kind }

        /// What is asked now; none once all is answered.
        public var question: Question? { kind.questions.dropFirst(answers.count).first }

        /// The known point from which it was counted, once that is answered.
        var from: String? { zip(kind.questions, answers).first { $0.0 == .from }?.1 }

        /// Whether its answer weighs the sighting in.
        public var isLast: Bool { kind.questions.count - 1 == answers.count }
    }

    /// Sightings beside a bearing to a landmark.
    public enum Kind: String, Codable, Sendable, CaseIterable {
        case lineRun, oneOf, trip, here, side, slope, height, heightSet, aspect, landform, angle, distance, running,
            paces

        /// In the order in which they are asked; what is typed comes last.
        public var questions: [Question] {
            switch self {
            case .lineRun: [.lineBearing]
            case .oneOf: [.several, .itsBearing]
            case .trip: [.from, .towards, .figure, .metres]
            case .here: [.whatIsHere]
            case .side: [.landmark, .facing, .side]
            case .slope: [.ground, .groundBearing]
            case .height: [.metresAboveSea]
            case .heightSet: [.whereSet, .setTo, .hoursSince, .metresAboveSea]
            case .aspect: [.fallsBearing]
            case .landform: [.landform, .landformBearing, .landformMetres]
            case .angle: [.left, .right, .degrees]
            case .distance: [.landmark, .metres]
            case .running: [.landmark, .runTowards, .firstBearing, .runMetres, .secondBearing]
            case .paces: [.from, .towards, .doublePaces]
            }
        }

        /// Whether it says nothing to one who stands on no line.
        public var countsAlongLine: Bool {
            switch self {
            case .lineRun, .trip, .here, .side, .running, .paces: true
            case .oneOf, .slope, .height, .heightSet, .aspect, .landform, .angle, .distance: false
            }
        }
    }

    public enum Question: Equatable, Sendable {
        case lineBearing, itsBearing, groundBearing, fallsBearing, landformBearing, firstBearing, secondBearing
        case metres, metresAboveSea, setTo, landformMetres, runMetres, degrees, doublePaces, hoursSince
        case landmark, left, right, several
        case from, towards, facing, runTowards, whatIsHere, whereSet
        case side, ground, landform, figure

        var asksBearing: Bool {
            switch self {
            case .lineBearing, .itsBearing, .groundBearing, .fallsBearing, .landformBearing: true
            case .firstBearing, .secondBearing: true
            default: false
            }
        }

        /// Whether figures are the answer, of a bearing or of a number.
        public var isTyped: Bool {
            switch self {
            case .metres, .metresAboveSea, .degrees, .doublePaces: true
            case .setTo, .landformMetres, .runMetres, .hoursSince: true
            default: asksBearing
            }
        }
    }
}

extension Draft.Asking {
    /// The sighting, once all is answered.
    var sighting: Record.Sighting? {
        guard question == nil, let first = answers.first, let last = answers.last else { return nil }
        let figures = Double(last) ?? Self.noFigures
        return switch kind {
        case .lineRun: .lineRun(last)
        case .oneOf: .bearing(to: several, last)
        case .trip:
            Record.Figure(rawValue: answers[2]).map { .trip(from: first, metres: figures, $0, towards: along) }
        case .here: Record.PlaceKind(rawValue: last).map(Record.Sighting.kindHere) ?? .here(last)
        case .side: Record.Quarter(rawValue: last).map { .side(first, $0, towards: along) }
        case .slope: Record.Trend(rawValue: first).map { .slope($0, towards: last) }
        case .height: .height(figures)
        case .heightSet: .heightSet(figures, at: first, to: Double(answers[1]), hours: Double(answers[2]))
        case .aspect: .aspect(falls: last)
        case .landform: Record.Landform(rawValue: first).map { .landform($0, at: answers[1], metres: Double(last)) }
        case .angle: .angle(left: first, right: answers[1], degrees: figures)
        case .distance: .distance(first, metres: figures)
        case .running:
            .running(
                first, first: answers[2], second: last, metres: Double(answers[3]) ?? Self.noFigures, towards: along)
        case .paces: .paces(from: first, double: figures, towards: along)
        }
    }

    /// Nothing typed is no number that the core would take.
    private static let noFigures = -999_999.0

    /// The known point that lies in the way; none when that was left open.
    private var along: String? { answers[1].isEmpty ? nil : answers[1] }
}
