"""What a file is, by its first bytes: a picture, sound, a film, or none of these."""

from typing import NamedTuple

FIRST_BYTES = 400
"""Bytes that have to be looked at: two packets of a film's stream."""


class FileSort(NamedTuple):
    """A sort of file that is taken in: its word, and the endings that its name may have, the usual
    one first."""

    word: str
    endings: tuple[str, ...]

    @property
    def is_picture(self) -> bool:
        return self.word == "picture"


_JPEG = FileSort("picture", (".jpg", ".jpeg", ".jpe", ".jfif"))
_PNG = FileSort("picture", (".png",))
_GIF = FileSort("picture", (".gif",))
_WEBP = FileSort("picture", (".webp",))
_BITMAP = FileSort("picture", (".bmp",))
# A camera's raw pictures are TIFF files under endings of their own, new ones every few years.
_TIFF = FileSort(
    "picture", (".tif", ".tiff", ".dng", ".nef", ".arw", ".cr2", ".pef", ".srw", ".3fr")
)
_HEIF = FileSort("picture", (".heic", ".heif", ".hif", ".avif"))
_RAW = FileSort("picture", (".cr3",))
_WAVE = FileSort("sound", (".wav",))
_MP3 = FileSort("sound", (".mp3",))
_M4A = FileSort("sound", (".m4a", ".m4b", ".aac"))
_OGG = FileSort("sound", (".ogg", ".oga", ".opus"))
_FLAC = FileSort("sound", (".flac",))
_AMR = FileSort("sound", (".amr",))
_AAC = FileSort("sound", (".aac",))
_MP4 = FileSort("film", (".mp4", ".m4v", ".mov", ".3gp", ".3g2", ".qt"))
_AVI = FileSort("film", (".avi",))
_MATROSKA = FileSort("film", (".mkv", ".webm", ".mka"))
_MPEG = FileSort("film", (".mpg", ".mpeg", ".vob"))
_STREAM = FileSort("film", (".mts", ".m2ts", ".ts"))
_WINDOWS = FileSort("film", (".wmv", ".wma", ".asf"))

_BEGINS: tuple[tuple[bytes, FileSort], ...] = (
    (b"\xff\xd8\xff", _JPEG),
    (b"\x89PNG\r\n\x1a\n", _PNG),
    (b"GIF87a", _GIF),
    (b"GIF89a", _GIF),
    (b"II*\0", _TIFF),
    (b"MM\0*", _TIFF),
    (b"ID3", _MP3),
    (b"OggS", _OGG),
    (b"fLaC", _FLAC),
    (b"#!AMR", _AMR),
    (b"\x1aE\xdf\xa3", _MATROSKA),
    (b"\0\0\1\xba", _MPEG),
    (b"\x30\x26\xb2\x75\x8e\x66\xcf\x11", _WINDOWS),
)
_IN_RIFF = {b"WEBP": _WEBP, b"WAVE": _WAVE, b"AVI ": _AVI}
_BRANDS = {
    **dict.fromkeys((b"heic", b"heix", b"heim", b"heis", b"mif1", b"msf1", b"avif"), _HEIF),
    **dict.fromkeys((b"M4A ", b"M4B "), _M4A),
    b"crx ": _RAW,
}
_OLD_FILMS = (b"moov", b"mdat", b"wide", b"skip", b"free")


def sort_of(first: bytes) -> FileSort | None:
    """The sort of the file that begins with these bytes (`FIRST_BYTES` of them, where it has so
    many); None where it is neither picture nor sound nor film."""
    for begin, sort in _BEGINS:
        if first.startswith(begin):
            return sort
    if first[:4] == b"RIFF":
        return _IN_RIFF.get(first[8:12])
    if first[4:8] == b"ftyp":
        return _BRANDS.get(first[8:12], _MP4)
    if first[4:8] in _OLD_FILMS:
        return _MP4
    if first[:2] == b"BM" and first[6:10] == b"\0\0\0\0":
        return _BITMAP
    return _by_sync(first)


def _by_sync(first: bytes) -> FileSort | None:
    """What has no name in front, and only marks that come again."""
    if len(first) > 2 and first[0] == 0xFF and first[1] & 0xF6 == 0xF0:
        return _AAC
    if len(first) > 3 and first[0] == 0xFF and first[1] & 0xE6 == 0xE2 and first[2] >> 4 < 15:
        return _MP3
    for start, packet in ((0, 188), (4, 192)):
        if len(first) > start + packet and first[start] == first[start + packet] == 0x47:
            return _STREAM
    return None
