import FieldModel

/// Names of places, controls and fields. They stay in the shell until the core's `words` offers them; every sentence
/// about the trip comes from the core.
enum Labels {
    static let sure = "Sure, 95\u{a0}%"
    static let home = "Home"
    static let light = "Light"
    static let undo = "Undo"
    static let strike = "Strike it"
    static let leave = "Leave it"
    static let openBook = "Open the logbook again"

    static let openSheet = "Open a sheet file"
    static let typeSheet = "Type a sheet here"
    static let carry = "Carry the typed sheet"
    static let pace = "Pace: double paces to 100 m"
    static let setPace = "Set the pace"
    static let toTheLine = "Go to the line"

    static let whichLine = "Which line are you on?"
    static let change = "Change"
    static let whatDoYouSee = "What do you see?"
    static let instrument = "Read with"
    static let weighIn = "Weigh it in"
    static let checkIt = "Check it"
    static let gridReference = "Grid reference"
    static let phone = "Phone"
    static let field = "Magnetic field at the phone"
    static let hereStands = "Here stands the car"
    static let anew = "Begin a new fix"
    static let adds = "Add to this fix"
    static func read(_ landmark: String) -> String { "Sight \(landmark)" }
    static let itIsHere = "It is here: keep it"

    static func otherNorth(_ north: Draft.North) -> String {
        north == .mag ? "Read from grid north" : "Read by compass"
    }
    static let lastOff = "Last off"
    static let clear = "Clear"
    static let shut = "Back"
    static let done = "Take it"

    static let walkOnBearing = "Walk by compass"
    static let whichWay = "Which way do you walk?"
    static let doublePaces = "double paces"
    static let met = "Met"
    static let howFarOut = "How far out, double paces?"
    static let turn = "Turn here"
    static let whereAmI = "Where am I"
    static let wayBack = "Way back"
    static let walkOn = "Walk on"
    static let followLog = "Follow the log"
    static let tenMore = "Count + 10"
    static let oneLess = "One less"
    static let comes = "Then comes"
    static let found = "Found it: close the trip"
    static func round(_ side: Record.Side) -> String { side == .left ? "Detour left" : "Detour right" }
    static func ofPlanned(_ paces: String) -> String { "of \(paces)" }

    static let closeTrip = "Close the trip"
    static let nextTrip = "Prepare the next trip"

    static func light(_ light: Lighting) -> String {
        switch light {
        case .day: "Day"
        case .night: "Night"
        case .high: "High contrast"
        }
    }

    static func place(_ stage: Stage) -> String {
        switch stage {
        case .before: "Before"
        case .besideTheLine: "Beside the line"
        case .onFoot: "On foot"
        case .wayBack: "Way back"
        case .afterwards: "Afterwards"
        }
    }

    static func instrument(_ instrument: Record.Instrument) -> String {
        switch instrument {
        case .sighting: "Sighting compass"
        case .baseplate: "Baseplate"
        case .quick: "At a glance"
        case .phone: "Phone"
        }
    }
}
