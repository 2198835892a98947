/// The inks of each light, in the order of `Ink`.
extension Theme {
    static let day = Theme(
        [
            // paper works landmark contour water sighting stretch spread
            0xfbf9f2, 0x14130f, 0x14130f, 0xa0601a, 0x0a68c0, 0x35083f, 0xa81f54, 0xa81f54,
            // legWalked legAhead wayBack car text textMuted warning divider
            0x0f7374, 0x0f7374, 0x3711a8, 0x14130f, 0x14130f, 0x4a463d, 0x6e2400, 0x7a7466,
        ],
        surface: 0xffffff, control: 0xffffff, primary: 0x14130f, primaryText: 0xffffff, controlEdge: 0x14130f)

    static let night = Theme(
        [
            // paper works landmark contour water sighting stretch spread
            0x0a0502, 0xd6642b, 0xe0692d, 0xbb481e, 0x955616, 0xb4632d, 0xd77627, 0xc26b23,
            // legWalked legAhead wayBack car text textMuted warning divider
            0xce6b29, 0xbe6326, 0xcc7529, 0xdd732c, 0xe66b2e, 0xe36729, 0xd4791e, 0xb04b20,
        ],
        surface: 0x120904, control: 0x160a05, primary: 0x2c1208, primaryText: 0xd97330, controlEdge: 0xb55021)

    static let high = Theme(
        [
            // paper works landmark contour water sighting stretch spread
            0xffffff, 0x000000, 0x000000, 0x8a4d08, 0x0059ab, 0x2e0038, 0x980044, 0x980044,
            // legWalked legAhead wayBack car text textMuted warning divider
            0x006b68, 0x006b68, 0x2a00a0, 0x000000, 0x000000, 0x2a2a2a, 0x5e1c00, 0x000000,
        ],
        surface: 0xffffff, control: 0xffffff, primary: 0x000000, primaryText: 0xffffff, controlEdge: 0x000000)
}
