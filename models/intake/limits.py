"""How much may one file ask of us?  Past a limit the file is refused with `TooLarge`, never half read."""

MAX_ROWS = 1_200_000  # a spreadsheet holds 1,048,576
MAX_COLUMNS = 500
MAX_CELLS = 60_000_000  # counted over the sheet's bounding box, which is what a reader must allocate
MAX_UNCOMPRESSED_BYTES = 1 << 30  # of a workbook, which is a zip archive

CHILD_ADDRESS_SPACE_BYTES = 3 << 30
CHILD_CPU_SECONDS = 120
CHILD_WALL_SECONDS = 180.0

HEADER_SEARCH_ROWS = 100  # titles, addresses and logos end before
SAMPLE_ROWS = 300  # looked at to judge what a column holds
