/// What is typed into fields, for a screen to bind to; each letter is kept.
extension FieldModel {
    public var typedSheet: String {
        get { draft.sheet }
        set { edit { $0.sheet = newValue } }
    }

    /// The grid reference to be held against the fix.
    public var typedPlace: String {
        get { draft.place }
        set { edit { $0.place = newValue } }
    }

    /// A part of a landmark's or a line's name.
    public var typedPart: String {
        get { draft.part }
        set { edit { $0.part = newValue } }
    }

    /// What is met where the leg ends.
    public var typedMet: String {
        get { draft.leg.met }
        set { edit { $0.leg.met = newValue } }
    }
}
