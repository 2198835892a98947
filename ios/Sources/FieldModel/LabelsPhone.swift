/// What the phone witnesses.
extension Labels {
    public static let phonePlace = Labels("label-phone-place")
    public static let phonePlaceAsk = Labels("label-phone-place-ask")
    public static let phonePlaceWaits = Labels("label-phone-place-waits")
    public static let phonePlaceRefused = Labels("label-phone-place-refused")
    public static let phonePlaceNone = Labels("label-phone-place-none")
    public static let phoneFlat = Labels("label-phone-flat")
    public static let phoneField = Labels("label-phone-field")
    public static let phoneFieldWaits = Labels("label-phone-field-waits")
    public static let phoneFieldNone = Labels("label-phone-field-none")
    public static let phoneSays = Labels("label-phone-says")
    public static let notByPhone = Labels("label-not-by-phone")
    public static let takeIt = Labels("label-take-it")
}
