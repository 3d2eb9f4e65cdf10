"""The report page: one offline HTML file with all that a build has to say. `page.report_page` makes it."""
