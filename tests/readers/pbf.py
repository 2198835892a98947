"""A small writer of OpenStreetMap PBF, for files that no honest writer makes."""

import zlib


def number(value):
    """A variable-length number."""
    value &= (1 << 64) - 1
    out = bytearray()
    while value > 127:
        out.append(value & 127 | 128)
        value >>= 7
    out.append(value)
    return bytes(out)


def zigzag(value):
    return number(value << 1 ^ value >> 63)


def field(key, value):
    """A field that holds a number or bytes."""
    if isinstance(value, int):
        return number(key << 3) + number(value)
    return number(key << 3 | 2) + number(len(value)) + value


def blob(kind, content, packed=False, body=None):
    """A blob in its frame."""
    if body is None:
        body = field(3, zlib.compress(content, 9)) + field(2, len(content)) if packed else field(1, content)
    header = field(1, kind.encode()) + field(3, len(body))
    return len(header).to_bytes(4, "big") + header + body


def header(*features):
    return blob("OSMHeader", b"".join(field(4, name.encode()) for name in features or ["OsmSchema-V0.6", "DenseNodes"]))


def dense(nodes):
    """Dense nodes: (number, lat, lon) in ten-millionths of a degree."""
    columns = []
    for index in range(3):
        last, out = 0, b""
        for node in nodes:
            out += zigzag(node[index] - last)
            last = node[index]
        columns.append(out)
    return field(2, field(1, columns[0]) + field(8, columns[1]) + field(9, columns[2]))


def way(identity, refs, tags):
    """A way: its tags as numbers of texts."""
    last, out = 0, b""
    for ref in refs:
        out += zigzag(ref - last)
        last = ref
    keys, values = b"".join(number(key) for key, _ in tags), b"".join(number(value) for _, value in tags)
    return field(3, field(1, identity) + field(2, keys) + field(3, values) + field(8, out))


def relation(identity, ways, roles, tags):
    """A relation of ways: their roles and its tags as numbers of texts."""
    last, out = 0, b""
    for way in ways:
        out += zigzag(way - last)
        last = way
    keys, values = b"".join(number(key) for key, _ in tags), b"".join(number(value) for _, value in tags)
    members = field(8, b"".join(number(role) for role in roles)) + field(9, out) + field(10, b"\x01" * len(ways))
    return field(4, field(1, identity) + field(2, keys) + field(3, values) + members)


def block(texts, *groups, extra=b""):
    table = field(1, b"".join(field(1, text.encode()) for text in ["", *texts]))
    return table + b"".join(field(2, group) for group in groups) + extra


def good():
    """A road of three places."""
    nodes = dense([(1, 460000000, 130000000), (2, 460010000, 130010000), (3, 460020000, 130000000)])
    return block(["highway", "track", "name", "Velm Road"], nodes, way(7, [1, 2, 3], [(1, 2), (3, 4)]))
