"""The desk: a web page on this machine alone, on which a dance is written and its sheet is drawn while she types."""
