"""Golden output lies beside the tests as files that a person can open."""

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode


class TextFile(SingleFileSnapshotExtension):
    _write_mode = WriteMode.TEXT
    file_extension = "txt"


class JsonFile(TextFile):
    file_extension = "json"


@pytest.fixture
def golden_text(snapshot: SnapshotAssertion) -> SnapshotAssertion:
    return snapshot.use_extension(TextFile)


@pytest.fixture
def golden_json(snapshot: SnapshotAssertion) -> SnapshotAssertion:
    return snapshot.use_extension(JsonFile)
