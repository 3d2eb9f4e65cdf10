"""Writers: each turns results into one kind of file, through a template or a library, and computes nothing."""
