"""Pictures and PDF pages to trace over: read within limits, and made anew, so that nothing but what shows is kept."""
