"""A file that an entry names: handed out as it came to be saved, or shown as a picture that is drawn anew."""

from __future__ import annotations

from flask import abort, send_file
from flask.typing import ResponseReturnValue

from repairlog.records import blobs
from repairlog.records.beside.blobs import is_own
from repairlog.records.queries.files import FileRow, files_with
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.files import files

routes = room("files", __name__)


@routes.get("/files/<digest>")
def whole(digest: str) -> ResponseReturnValue:
    """The file itself, to be saved: a browser is never let to show it. 404 where it is not here, or was altered."""
    row = _seen(digest)
    if blobs.state_of(files().folder, digest) != "here":
        abort(404)
    called = row.name or f"{digest[:12]}"
    path = blobs.path_of(files().folder, digest).resolve()
    return send_file(path, mimetype="application/octet-stream", as_attachment=True, download_name=called)


@routes.get("/files/<digest>/picture")
def picture(digest: str) -> ResponseReturnValue:
    """A picture of it; 404 where it is none, or is not here."""
    _seen(digest)
    drawn = blobs.picture_of(files().folder, digest)
    return send_file(drawn.resolve(), mimetype="image/jpeg") if drawn else abort(404)


def _seen(digest: str) -> FileRow:
    """The file, for whoever may see what it is about, or sent it; 404 for everybody else."""
    with store().reading() as tx:
        found = files_with(asker().scope, tx, digests=[digest])
    if found:
        return found[0]
    if not is_own(store(), digest, person=asker().actor.person):
        abort(404)
    return FileRow(digest=digest, media_type="", name="")
