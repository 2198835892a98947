internal import GatepostBridge

/// A landform near the likeliest place, by the heights of the sheet.
public struct Landform: Equatable, Sendable {
    let kind: String
    /// What it is, how far and at which bearing.
    public let told: String
}

/// The landforms near a place, nearest first, and what of the ground there is only counted or cannot be told.
public struct Near: Equatable, Sendable {
    public var landforms: [Landform] = []
    public var untold: [String] = []

    public var isNothing: Bool { landforms.isEmpty && untold.isEmpty }
}

/// By what the landforms near change: the fix, the heights, the compass.
public struct Stood: Equatable, Sendable {
    let atUnixMs: Int64
    let reference: String?
    let ground: [String]?
    let compass: String?
}

/// The ground near the likeliest place. Over fine heights that takes the core seconds: it is asked once for each fix, off
/// the main actor.
extension FieldModel {
    /// What they are asked for; nothing before a fix.
    public var stood: Stood? {
        guard let snapshot, let at = snapshot.fix?.atUnixMs ?? snapshot.openFix?.atUnixMs else { return nil }
        let reference = snapshot.fix?.places.first?.reference ?? snapshot.openFix?.places.first?.reference
        return Stood(atUnixMs: at, reference: reference, ground: snapshot.sheet?.ground, compass: snapshot.compass)
    }

    /// What is known by now; nothing yet where it is still being asked.
    public var groundNear: Near? {
        guard let stood else { return Near() }
        return stood == near?.of ? near?.told : nil
    }

    /// Asks for them, one question at a time; when another fix was taken meanwhile, once more.
    public func askGroundNear() async {
        while !asksNear, bringing == nil, let wanted = stood, wanted != near?.of, let book = try? opened() {
            asksNear = true
            let at = time
            // Only the landforms are wanted of the answer: landmarks that are farther than a metre are left out.
            let reply = await Task.detached {
                try? book.take(record: .seen(at: at, place: nil, eyeM: nil, withinM: 1, to: nil))
            }.value
            asksNear = false
            guard case .seen(_, _, let landforms, let untold) = reply?.answer else {
                near = (wanted, Near())
                continue
            }
            near = (wanted, Near(landforms: landforms.map { Landform(kind: $0.kind, told: $0.told) }, untold: untold))
        }
    }

    /// Begins the bearing to it.
    public func begin(_ landform: Landform) {
        var asking = Draft.Asking(.landform)
        asking.answers = [landform.kind]
        openPad(.asks(asking))
    }
}
