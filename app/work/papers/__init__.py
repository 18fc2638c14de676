"""Papers: facts taken from the book, frozen when issued, rendered and filed with the job."""
