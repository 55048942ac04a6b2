// While somebody goes through the rows the page is asked for again, until it is done.
setTimeout(() => location.reload(), 700);
