"""From the text of job and shop files to checked, exact data; the first stage."""
