"""The web process never loads what only workers need."""

import json
import subprocess
import sys

PROGRAM = """
import json, sys
import api.http.app
print(json.dumps(sorted({name.split(".")[0] for name in sys.modules})))
"""


def test_importing_the_application_loads_no_scikit_learn() -> None:
    done = subprocess.run([sys.executable, "-c", PROGRAM], check=True, capture_output=True, text=True)
    loaded = json.loads(done.stdout)
    assert "fastapi" in loaded
    assert "sklearn" not in loaded
