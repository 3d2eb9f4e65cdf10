"""The files of labels/: from a build to path and bytes."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.pdf import pdf
from firstfix.documents.labels.forms import form_of
from firstfix.documents.labels.pages import leaves
from firstfix.documents.labels.table import labels_csv
from firstfix.graphs.labels import PhysicalLabel, physical_labels


def label_files(
    build: Build, is_draft: bool = False, only: tuple[PhysicalLabel, ...] | None = None
) -> Iterator[tuple[str, bytes]]:
    """Nothing where nothing is to be labelled. `only`: some of the build's labels, else all."""
    labels = physical_labels(build) if only is None else only
    forms = tuple(form_of(build, label) for label in labels)
    if not forms:
        return
    yield "labels/labels.csv", labels_csv(forms).encode()
    sheets = build.administration.sheets or build.looks.paper
    title = f"Labels of {build.name}" if build.name else "Labels"
    yield "labels/labels.pdf", pdf(leaves(forms, sheets, title, is_draft), title)
