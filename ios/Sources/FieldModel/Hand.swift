extension Draft {
    /// A sheet as it is typed from the paper map; texts as they stand in its fields.
    public struct Hand: Codable, Equatable, Sendable {
        public enum Step: String, Codable, Sendable {
            case sheet, line, points, landmarks
        }

        public var step = Step.sheet
        public var name = ""
        /// Zone and square letters that complete short references.
        public var beginning = ""
        /// The number under the printed scale.
        public var scale = ""
        public var line = ""
        /// Road, track, path, creek, ridge or fence, as it is called.
        public var lineKind = ""
        /// The line's points so far, and the one that is typed.
        public var points: [String] = []
        public var point = ""
        /// Where the typed point belongs among them; at their end when it is none of before.
        var pointAt: Int?
        /// The known points of the line so far, and the one that is typed.
        public var knownPoints: [KnownPoint] = []
        public var knownPoint = KnownPoint()
        /// The landmarks so far, and the one that is typed.
        public var landmarks: [Landmark] = []
        public var landmark = Landmark()

        /// What is added to the sheet that is open; nothing of a new sheet.
        public internal(set) var adding: Adding?

        /// A part of a sheet.
        public enum Adding: String, Codable, CaseIterable, Sendable {
            case landmark, point, line
        }

        public init() {}
    }

    /// A known point of the line as it is typed.
    public struct KnownPoint: Codable, Equatable, Sendable {
        public var name = ""
        public var place = ""

        public init() {}
    }

    /// A landmark as it is typed.
    public struct Landmark: Codable, Equatable, Sendable {
        public var name = ""
        public var kind = ""
        public var place = ""
        /// Of its top above the ground.
        public var height = ""

        public init() {}
    }
}

extension Draft.Hand {
    /// Takes what is half typed of the line or of a landmark in.
    mutating func note() {
        if !point.isEmpty { points.insert(point, at: pointAt ?? points.count) }
        if knownPoint != .init() { knownPoints.append(knownPoint) }
        if landmark != .init() { landmarks.append(landmark) }
        (point, pointAt, knownPoint, landmark) = ("", nil, .init(), .init())
    }

    /// Brings a point back into the field; it keeps its place in the line.
    mutating func retype(point index: Int) {
        let isBefore = !point.isEmpty && (pointAt ?? points.count) <= index
        note()
        let at = isBefore ? index + 1 : index
        guard points.indices.contains(at) else { return }
        (point, pointAt) = (points.remove(at: at), at)
    }

    /// Brings a known point back into its fields.
    mutating func retype(knownPoint index: Int) {
        guard knownPoints.indices.contains(index) else { return }
        let again = knownPoints.remove(at: index)
        note()
        knownPoint = again
    }

    /// Brings a landmark back into its fields.
    mutating func retype(landmark index: Int) {
        guard landmarks.indices.contains(index) else { return }
        let again = landmarks.remove(at: index)
        note()
        landmark = again
    }
}

/// A sheet from the paper map: name and place, a line point by point, landmarks. The core hears of it when it is carried.
extension FieldModel {
    public var hand: Draft.Hand {
        get { draft.atWork }
        set { edit { $0.atWork = newValue } }
    }

    /// The typed point or landmark is complete; the next is begun.
    public func noteTyped() {
        edit { $0.atWork.note() }
    }

    /// Something that was typed is typed again.
    public func retype(point index: Int) {
        edit { $0.atWork.retype(point: index) }
    }

    public func retype(knownPoint index: Int) {
        edit { $0.atWork.retype(knownPoint: index) }
    }

    public func retype(landmark index: Int) {
        edit { $0.atWork.retype(landmark: index) }
    }

    /// To the next part of the sheet, at its end the sheet is carried. A refusal keeps all that was typed.
    @discardableResult
    public func goOnTyping() -> Bool {
        noteTyped()
        switch draft.atWork.step {
        case .sheet: edit { $0.atWork.step = .line }
        case .line: edit { $0.atWork.step = .points }
        case .points where draft.pad == .adds: return add()
        case .points: edit { $0.atWork.step = .landmarks }
        case .landmarks where draft.pad == .adds: return add()
        case .landmarks: return act(.sheet(draft.hand)) { $0 = Draft() }
        }
        return true
    }

    /// To the part before, from the first one out; what was typed stays.
    func stopTyping() {
        if draft.pad == .adds, draft.addition.isAtItsBeginning { return edit { $0.pad = .parts } }
        edit { draft in
            switch draft.atWork.step {
            case .sheet: draft.pad = nil
            case .line: draft.atWork.step = .sheet
            case .points: draft.atWork.step = .line
            case .landmarks: draft.atWork.step = .points
            }
        }
    }
}
