// Follows one job and reloads the page when it ends.  Without scripts the page refreshes itself instead.
const shown = document.querySelector("[data-job]");

async function look() {
  const answer = await fetch(`/api/v1/jobs/${encodeURIComponent(shown.dataset.job)}`, { headers: { Accept: "application/json" } });
  if (!answer.ok) return answer.status === 401 || answer.status === 404;
  const job = await answer.json();
  shown.querySelector("progress").value = job.progress;
  shown.querySelector("[data-step]").textContent = job.step || "Waiting for a free worker";
  return ["done", "failed", "cancelled"].includes(job.state);
}

async function follow() {
  const over = await look().catch(() => false);
  if (over) window.location.assign(shown.dataset.then);
  else setTimeout(follow, 700);
}

if (shown) follow();
