"""The tests' own PostgreSQL stands as an operator's would."""

import psycopg
import pytest

from tests.makers import postgresql


def test_the_shared_server_answers_as_its_own_superuser(postgresql_server):
    with psycopg.connect(postgresql_server) as connection:
        assert connection.execute("SELECT current_user, current_database()").fetchone() == ("postgres", "postgres")


@pytest.mark.skipif(postgresql.binaries() is None, reason=postgresql.NONE_HERE)
def test_what_was_committed_on_a_durable_cluster_is_there_after_a_crash():
    with postgresql.running(durable=True) as cluster:
        with psycopg.connect(cluster.url) as connection:
            assert connection.execute("SHOW fsync").fetchone() == ("on",)
            connection.execute("CREATE TABLE kept (entry integer)")
            connection.execute("INSERT INTO kept VALUES (417)")
        postgresql.stop(cluster, how="immediate")
        again = postgresql.restart(cluster)
        with psycopg.connect(again.url) as connection:
            assert connection.execute("SELECT entry FROM kept").fetchall() == [(417,)]
        postgresql.stop(again)
    assert not cluster.folder.exists()
